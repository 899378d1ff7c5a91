#include "plan/shop_parts.h"

#include <algorithm>

#include <fmt/format.h>

#include "plan/allowed_starts.h"

namespace coatwright {
namespace {

/// A part as if it were the only work in the shop.
PlanRequest request_of(const ShopRequest& shop,
                       const JobRequest& job,
                       const PartRequest& part,
                       const std::vector<Interval>& openings) {
  PlanRequest request;
  request.piece = part.finish;
  request.made_at = shop.made_at;
  request.from = shop.from;
  request.by = job.due.value_or(shop.horizon);
  request.confidence = shop.confidence;
  request.hours = openings;
  request.horizon = shop.horizon;
  return request;
}

/// How many people are there at a moment; one at least, who sees to what is open.
std::size_t people_at(const std::vector<StaffedHours>& hours, Time at) {
  int people = 1;
  for (const StaffedHours& one : hours) {
    if (one.open.start <= at && at < one.open.end) {
      people = std::max(people, one.people);
    }
  }
  return static_cast<std::size_t>(people);
}

bool has_open_work(const ShopPart& part) {
  return part.progress.wipe.has_value() || part.progress.rags_open;
}

/// What must be wiped soonest is wiped first.
bool is_more_urgent(const ShopPart* a, const ShopPart* b) {
  const auto closes = [](const ShopPart& part) {
    return part.progress.wipe ? part.progress.wipe->closes : Time::max();
  };
  return closes(*a) < closes(*b);
}

/// Each person there sees to one part after another.
Result<void> see_to_open_work(const ShopRequest& request,
                              const RecipeBook& book,
                              DryingClocks& clocks,
                              ShopParts& shop) {
  std::vector<ShopPart*> open;
  for (ShopPart& part : shop.parts) {
    if (has_open_work(part)) {
      open.push_back(&part);
    }
  }
  std::stable_sort(open.begin(), open.end(), is_more_urgent);
  std::vector<Time> free(people_at(request.hours, request.from), request.from);
  for (ShopPart* part : open) {
    Time& at = *std::min_element(free.begin(), free.end());
    part->open_from = std::max(at, part->progress.last_at.value_or(at));
    Prescription prescription;
    prescription.open_from = part->open_from;
    const auto chain = place_chain(
        part->request, part->progress, {}, Strictness::kPlan, book, clocks, &prescription);
    if (!chain) {
      return pass_on(chain.error());
    }
    shop.busy.push_back({*part->open_from, chain->open_until});
    at = chain->open_until;
  }
  return {};
}

}  // namespace

Result<ShopParts> parts_of(const ShopRequest& request,
                           const RecipeBook& book,
                           DryingClocks& clocks) {
  ShopParts shop;
  const std::vector<Interval> openings = openings_of(request.hours);
  for (std::size_t job = 0; job < request.jobs.size(); ++job) {
    for (const PartRequest& asked : request.jobs[job].parts) {
      ShopPart part;
      part.job = static_cast<int>(job);
      part.name = asked.name;
      part.rack_places = asked.rack_places;
      part.request = request_of(request, request.jobs[job], asked, openings);
      part.earliest = request.jobs[job].earliest;
      auto scheduled = scheduled_works(*asked.finish.schedule, book);
      if (!scheduled) {
        return pass_on(scheduled.error());
      }
      part.scheduled = std::move(*scheduled);
      part.progress = progress_of(part.request.piece, part.scheduled, request.from);
      hold_back_early_coats(
          part.progress, book, clocks, {normal_deviate(request.confidence), request.horizon});
      shop.parts.push_back(std::move(part));
    }
  }
  if (const auto seen_to = see_to_open_work(request, book, clocks, shop); !seen_to) {
    return pass_on(seen_to.error());
  }
  return shop;
}

Result<PartChain> chain_of(const ShopPart& part,
                           const PartChoice& choice,
                           const RecipeBook& book,
                           DryingClocks& clocks,
                           const Prescription* prescription) {
  PartChain chain;
  chain.works = work_sequence(part.request.piece, choice.order, part.scheduled, part.progress);
  Prescription by_choice;
  by_choice.open_from = part.open_from;
  for (const auto& option : choice.options) {
    by_choice.sessions.push_back({part.request.from, option, std::nullopt});
  }
  if (part.earliest) {
    by_choice.sessions.resize(std::max<std::size_t>(1, by_choice.sessions.size()));
    by_choice.sessions.front().not_before = *part.earliest;
  }
  auto placed = place_chain(part.request,
                            part.progress,
                            chain.works,
                            Strictness::kPlan,
                            book,
                            clocks,
                            prescription == nullptr ? &by_choice : prescription);
  if (!placed) {
    return pass_on(placed.error());
  }
  chain.alone = std::move(*placed);
  if (chain.alone.stopped_by) {
    const std::string whole = part.name == "all" ? "" : ", " + part.name;
    chain.alone.stopped_by =
        fmt::format("{}{}: {}", part.request.piece.name, whole, *chain.alone.stopped_by);
  }
  return chain;
}

Result<ChosenChain> best_choice(const ShopPart& part,
                                const RecipeBook& book,
                                DryingClocks& clocks,
                                std::optional<FaceOrder> only) {
  std::optional<ChosenChain> best;
  const std::vector<FaceOrder> orders =
      only ? std::vector{*only} : orders_of(part.request.piece.faces);
  for (const FaceOrder order : orders) {
    PartChoice choice{order, {}};
    auto chain = chain_of(part, choice, book, clocks);
    if (!chain) {
      return pass_on(chain.error());
    }
    if (!best || ends_earlier(chain->alone, best->chain.alone)) {
      for (const PlacedSession& session : chain->alone.sessions) {
        const bool is_coat = session.options > 0;
        choice.options.push_back(is_coat ? std::optional(session.option) : std::nullopt);
      }
      best = ChosenChain{std::move(choice), std::move(*chain)};
    }
  }
  return std::move(*best);
}

Time first_moment(const ShopRequest& request) {
  // The board's memory of the air lies before the first step.
  constexpr std::chrono::hours kAirBefore{3};
  Time first = request.from;
  for (const JobRequest& job : request.jobs) {
    for (const PartRequest& part : job.parts) {
      if (!part.finish.log.empty()) {
        first = std::min(first, part.finish.log.front().at);
      }
      if (part.finish.over) {
        first = std::min(first, part.finish.over->since);
      }
    }
    for (const BuildWork& work : job.build) {
      first = std::min(first, work.done_at.value_or(first));
    }
  }
  return first - kAirBefore;
}

}  // namespace coatwright
