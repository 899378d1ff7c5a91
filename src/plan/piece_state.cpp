#include "plan/piece_state.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace coatwright {

StageTiming LaidCoat::adapted(const StageTiming& timing) const {
  const StageTiming for_film = timing.for_film(film_ratio);
  return thinning ? thinning->applied_to(for_film) : for_film;
}

void set_film(LaidCoat& coat, const ScheduleStep& step) {
  coat.film_ratio = film_ratio_of(step, *coat.product);
  coat.thinning = step.thinning;
}

std::optional<StageTiming> LaidCoat::timing(Stage stage) const {
  const DryingStage* found = product->stage(stage);
  if (found == nullptr) {
    return std::nullopt;
  }
  return adapted(found->timing);
}

std::optional<Time> LaidCoat::past_critical_stage(DryingClocks& clocks,
                                                  const WaitRule& rule) const {
  const auto critical = timing(product->limits.critical_stage);
  return critical ? since_end(clocks).opens(*critical, rule.deviate, rule.horizon)
                  : std::optional(ended);
}

std::optional<Temperature> LaidCoat::gate() const {
  const auto& minimum = product->limits.temperature_min;
  return minimum ? std::optional(minimum->value) : std::nullopt;
}

double film_ratio_of(const ScheduleStep& step, const Product& product) {
  const auto& reference = product.film.reference_wet;
  if (!step.wet_film || !reference) {
    return 1.0;
  }
  return step.wet_film->micrometres() / reference->value.micrometres();
}

std::vector<int> PieceState::every_face() const {
  std::vector<int> faces;
  for (std::size_t i = 0; i < last_coats.size(); ++i) {
    faces.push_back(static_cast<int>(i));
  }
  return faces;
}

Result<Time> PieceState::all_reached(Stage stage,
                                     const std::vector<int>& faces,
                                     DryingClocks& clocks,
                                     const WaitRule& rule) const {
  Time latest = cursor;
  for (const int face : faces) {
    const auto& coat = on(face);
    const auto timing = coat ? coat->timing(stage) : std::nullopt;
    if (!timing) {
      continue;
    }
    const auto at = coat->since_end(clocks).opens(*timing, rule.deviate, rule.horizon);
    if (!at) {
      return fail(ErrorCode::kNo, never_dries(*coat, name_of(stage)));
    }
    latest = std::max(latest, *at);
  }
  return latest;
}

std::optional<StageTiming> rub_out_timing(const ScheduleStep& step, const LaidCoat& coat) {
  if (step.waits) {
    return coat.adapted(coat.product->wait_of(*step.waits));
  }
  return coat.timing(Stage::kFullCure);
}

Result<Time> PieceState::rub_out_ready(const ScheduleStep& step,
                                       const std::vector<int>& faces,
                                       DryingClocks& clocks,
                                       const WaitRule& rule) const {
  Time latest = cursor;
  for (const int face : faces) {
    const auto& coat = on(face);
    const auto timing = coat ? rub_out_timing(step, *coat) : std::nullopt;
    if (!timing) {
      continue;
    }
    const auto opens = coat->since_end(clocks).opens(*timing, rule.deviate, rule.horizon);
    if (!opens) {
      return fail(ErrorCode::kNo, never_dries(*coat, "rub-out"));
    }
    latest = std::max(latest, *opens);
  }
  return latest;
}

namespace {

/// A closing runs on in the cold, but never beyond the label's own hours.
std::chrono::seconds closes_after(const RateLaw& law,
                                  Hours label_hours,
                                  Time since,
                                  DryingClocks& clocks) {
  const std::chrono::seconds label(std::llround(label_hours.hours() * 3600.0));
  const auto by_clock = clocks.of(law, std::nullopt).reached(since, label_hours, since + label);
  return by_clock ? *by_clock - since : label;
}

}  // namespace

std::chrono::seconds wipe_closes(const Product& product, Time at, DryingClocks& clocks) {
  if (!product.wipe_off) {
    return std::chrono::seconds(0);
  }
  return closes_after(product.wipe_off->closing_law, product.wipe_off->closes, at, clocks);
}

std::chrono::seconds pot_life_of(const Product& product, Time mixed, DryingClocks& clocks) {
  if (!product.mix || !product.mix->pot_life) {
    return std::chrono::seconds(0);
  }
  return closes_after(product.mix->pot_life_law, product.mix->pot_life->low(), mixed, clocks);
}

std::string never_dries(const LaidCoat& coat, std::string_view stage) {
  std::string text = fmt::format(
      "{} does not come to '{}' before the plan is given up", coat.product->title, stage);
  if (const auto gate = coat.gate()) {
    text += fmt::format("; below its minimum of {:.0f} C ({:.0f} F) no drying is credited",
                        gate->celsius(),
                        gate->fahrenheit());
  }
  return text;
}

}  // namespace coatwright
