#include "cli/handover_facts.h"

#include <algorithm>

#include <fmt/format.h>

#include "air/changed_air.h"
#include "plan/handover_finish.h"

namespace coatwright {
namespace {

// A lived-in house that is cool and dry, on the side on which a finish cures more slowly. Source:
// judgement.
const TemperatureAndHumidity kAssumedHouse{Temperature::from_celsius(18.0),
                                           RelativeHumidity::from_percent(40.0)};
constexpr std::chrono::hours kAirBefore{6};

/// The last coats of all faces of all parts.
std::vector<const LaidCoat*> tops_of(const std::vector<PartWithCoats>& parts) {
  std::vector<const LaidCoat*> tops;
  for (const PartWithCoats& part : parts) {
    for (const auto& on_face : part.progress.coats_on) {
      if (!on_face.empty()) {
        tops.push_back(&on_face.back());
      }
    }
  }
  return tops;
}

/// The moments between which the last coats went on; what came in with the piece does not count.
std::optional<Interval> span_of(const std::vector<PartWithCoats>& parts) {
  std::optional<Interval> span;
  for (const LaidCoat* top : tops_of(parts)) {
    if (!top->came_in) {
      span = span ? Interval{std::min(span->start, top->begun), std::max(span->end, top->ended)}
                  : Interval{top->begun, top->ended};
    }
  }
  return span;
}

/// From when on somebody may ask the clocks.
Time first_of(const std::vector<PartWithCoats>& parts, Time now) {
  Time first = now;
  for (const PartWithCoats& part : parts) {
    for (const auto& on_face : part.progress.coats_on) {
      for (const LaidCoat& coat : on_face) {
        first = std::min(first, coat.begun);
      }
    }
  }
  return first - kAirBefore;
}

/// Errors: kNo, naming the coats.
Result<void> check_answered(const std::vector<PartWithCoats>& parts, const std::string& piece) {
  std::vector<std::string> missing;
  for (const PartWithCoats& part : parts) {
    missing.insert(missing.end(), part.missing.begin(), part.missing.end());
  }
  if (missing.empty()) {
    return {};
  }
  return fail(
      ErrorCode::kNo,
      fmt::format("no card yet: {} {} neither logged nor ahead in the last plan. Log what is "
                  "on with `coatwright coat`, or plan the rest with `coatwright plan \"{}\"`",
                  fmt::join(missing, "; "),
                  missing.size() == 1 ? "is" : "are",
                  piece));
}

void add_remarks(const std::vector<PartWithCoats>& parts, HandoverCard& card) {
  for (const PartWithCoats& part : parts) {
    add_new(part.part->log.left_aside, card.remarks);
    for (const PlanWarning& warning : part.progress.warnings) {
      add_new({warning.text}, card.remarks);
    }
  }
}

}  // namespace

Result<HandoverCard> handover_card(const HandoverRequest& request,
                                   std::deque<FinishedPart>& parts,
                                   const RecipeBook& book,
                                   const Session& session) {
  const auto kept = session.store.kept_plan(request.piece->name);
  if (!kept) {
    return pass_on(kept.error());
  }
  auto coated = coated_parts(parts, *kept, book, session.now);
  if (!coated) {
    return pass_on(coated.error());
  }
  if (const auto answered = check_answered(*coated, request.piece->name); !answered) {
    return pass_on(answered.error());
  }
  const auto span = span_of(*coated);
  if (!span) {
    return fail(ErrorCode::kNo, "no card: no coat of this piece is logged");
  }
  const auto known = delivery_of(request, *kept, session);
  if (!known) {
    return pass_on(known.error());
  }
  const auto delivery = not_before(*known, span->end, session);
  if (!delivery) {
    return pass_on(delivery.error());
  }
  const Time first = first_of(*coated, session.now);
  const auto shop = session.air(first, delivery->at);
  if (!shop) {
    return pass_on(shop.error());
  }
  const auto care = book.aftercare();
  if (!care) {
    return pass_on(care.error());
  }
  const TemperatureAndHumidity house = request.house.value_or(kAssumedHouse);
  HandoverCard card;
  card.piece = request.piece->name;
  card.made_at = session.now;
  card.confidence = kCardConfidence;
  card.care = **care;
  card.air.from = span->start;
  card.air.handed_over = delivery->at;
  card.air.moment = delivery->moment;
  card.air.house = house.temperature;
  card.air.house_humidity = house.humidity;
  card.air.house_assumed = !request.house;
  describe_shop_air(*shop, card.air);
  const AirRecord air = shop_then_house(
      *shop, first, delivery->at, UsualDay::constant(house.temperature, house.humidity));
  DryingClocks clocks(air, first);
  for (PartWithCoats& part : *coated) {
    add_finish(finish_of({part.part->name, part.progress, part.logged}, book, clocks),
               card.finishes);
  }
  if (card.finishes.size() == 1) {
    card.finishes.front().parts.clear();
  }
  add_remarks(*coated, card);
  return card;
}

}  // namespace coatwright
