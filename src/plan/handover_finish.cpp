#include "plan/handover_finish.h"

#include <algorithm>

namespace coatwright {
namespace {

void add_coat(const LaidCoat& coat, bool planned, CardFinish& finish) {
  const auto known =
      std::find_if(finish.coats.begin(), finish.coats.end(), [&](const CardCoats& one) {
        return one.product == coat.product->name;
      });
  if (known == finish.coats.end()) {
    finish.coats.push_back(
        {coat.product->name, coat.product->title, 1, coat.begun, coat.begun, planned});
    return;
  }
  known->first = std::min(known->first, coat.begun);
  known->last = std::max(known->last, coat.begun);
  known->planned = known->planned || planned;
}

void add_layer(const std::string& layer, CardFinish& finish) {
  if (std::find(finish.layers.begin(), finish.layers.end(), layer) == finish.layers.end()) {
    finish.layers.push_back(layer);
  }
}

/// The number of a product's coats is that of the face that has the most.
void count_face(const std::vector<LaidCoat>& on_face, CardFinish& finish) {
  for (CardCoats& coats : finish.coats) {
    const auto count = std::count_if(on_face.begin(), on_face.end(), [&](const LaidCoat& coat) {
      return !coat.came_in && coat.product->name == coats.product;
    });
    coats.coats = std::max(coats.coats, static_cast<int>(count));
  }
}

void add_coats(const CoatedPart& part, CardFinish& finish) {
  for (const auto& on_face : part.progress.coats_on) {
    for (const LaidCoat& coat : on_face) {
      if (coat.came_in) {
        finish.over = coat.product->title;
      } else {
        add_coat(coat, static_cast<std::size_t>(coat.step) > part.logged, finish);
      }
    }
    if (!on_face.empty()) {
      add_layer(on_face.back().product->layer, finish);
    }
    count_face(on_face, finish);
  }
  std::stable_sort(finish.coats.begin(), finish.coats.end(), [](const auto& a, const auto& b) {
    return a.first < b.first;
  });
}

/// How one coat comes to a stage.
CardStage stage_of_coat(const LaidCoat& coat, Stage stage, DryingClocks& clocks, double deviate) {
  CardStage told;
  told.product = coat.product->title;
  told.since = coat.ended;
  const auto timing = coat.timing(stage);
  if (!timing) {
    return told;
  }
  told.low = timing->whole().low();
  told.high = timing->whole().high();
  told.mechanism = timing->description();
  told.source = coat.product->stage(stage)->source;
  for (const Phase& phase : timing->phases) {
    told.needed = told.needed + phase.duration.at_deviate(deviate);
  }
  told.at = coat.since_end(clocks).opens(*timing, deviate, coat.ended + kCardHorizon);
  return told;
}

/// The later of the two; what is not in sight is the latest.
void take_later(CardStage other, CardStage& stage) {
  if (stage.at && (!other.at || *other.at > *stage.at)) {
    stage = std::move(other);
  }
}

/// How the top coats of a part's faces come to a stage: the last of them.
CardStage stage_of(const CoatedPart& part, Stage stage, DryingClocks& clocks, double deviate) {
  std::optional<CardStage> latest;
  for (const auto& on_face : part.progress.coats_on) {
    if (on_face.empty()) {
      continue;
    }
    CardStage one = stage_of_coat(on_face.back(), stage, clocks, deviate);
    if (latest) {
      take_later(std::move(one), *latest);
    } else {
      latest = std::move(one);
    }
  }
  return latest.value_or(CardStage{});
}

bool is_alike(const CardFinish& a, const CardFinish& b) {
  return a.over == b.over && a.layers == b.layers && a.planned() == b.planned() &&
         std::equal(a.coats.begin(),
                    a.coats.end(),
                    b.coats.begin(),
                    b.coats.end(),
                    [](const CardCoats& one, const CardCoats& other) {
                      return one.product == other.product && one.coats == other.coats;
                    });
}

}  // namespace

CardFinish finish_of(CoatedPart part, const RecipeBook& book, DryingClocks& clocks) {
  const double deviate = normal_deviate(kCardConfidence);
  // Beyond any coat's own horizon: the last of them is not before the others.
  Time horizon = Time::min();
  for (const auto& on_face : part.progress.coats_on) {
    horizon = on_face.empty() ? horizon : std::max(horizon, on_face.back().ended + kCardHorizon);
  }
  hold_back_early_coats(part.progress, book, clocks, {deviate, horizon});
  CardFinish finish;
  finish.parts = {part.name};
  add_coats(part, finish);
  finish.light_use = stage_of(part, Stage::kLightUse, clocks, deviate);
  finish.full_use = stage_of(part, Stage::kFullCure, clocks, deviate);
  return finish;
}

void add_finish(CardFinish finish, std::vector<CardFinish>& all) {
  const auto like = std::find_if(
      all.begin(), all.end(), [&](const CardFinish& one) { return is_alike(one, finish); });
  if (like == all.end()) {
    all.push_back(std::move(finish));
    return;
  }
  like->parts.insert(like->parts.end(), finish.parts.begin(), finish.parts.end());
  take_later(std::move(finish.light_use), like->light_use);
  take_later(std::move(finish.full_use), like->full_use);
  for (std::size_t i = 0; i < like->coats.size(); ++i) {
    like->coats[i].first = std::min(like->coats[i].first, finish.coats[i].first);
    like->coats[i].last = std::max(like->coats[i].last, finish.coats[i].last);
  }
}

}  // namespace coatwright
