#include "plan/room_now.h"

#include <fmt/format.h>

namespace coatwright {
namespace {

// What is not ready in four weeks is not in sight.
constexpr std::chrono::hours kHorizon{24 * 28};
// What must be air for the clocks before the first coat: the board's memory of the air.
constexpr std::chrono::hours kAirBefore{3};

}  // namespace

RoomNow::RoomNow(const NowRequest& asked,
                 const RecipeBook& recipes,
                 const AirRecord& air,
                 Time first)
    : request(asked),
      book(recipes),
      clocks(air, first - kAirBefore),
      rule{normal_deviate(asked.confidence), asked.now + kHorizon} {}

Ready RoomNow::reached(const LaidCoat& coat, Stage stage) {
  const auto timing = coat.timing(stage);
  if (!timing) {
    return {request.now, "", ""};
  }
  return reached(coat, *timing, name_of(stage), coat.product->stage(stage)->source);
}

Ready RoomNow::reached(const LaidCoat& coat,
                       const StageTiming& timing,
                       std::string_view stage,
                       const std::string& source) {
  CoatProgress drying = coat.since_end(clocks);
  Ready ready{drying.opens(timing, rule.deviate, rule.horizon), "", source};
  if (ready.at && *ready.at <= request.now) {
    return ready;
  }
  Hours needed = Hours::from_hours(0);
  for (const Phase& phase : timing.phases) {
    needed = needed + phase.duration.at_deviate(rule.deviate);
  }
  ready.reason = fmt::format(
      "{} is not yet '{}': it needs {:.1f} h at 23 C and 50 %, and had {:.1f} h of them ({})",
      coat.product->title,
      stage,
      needed.hours(),
      drying.earned(timing, rule.deviate, request.now).hours(),
      timing.description());
  return ready;
}

Ready RoomNow::dust_free() {
  Ready latest{request.now, "", ""};
  for (const Standing& one : pieces) {
    for (const auto& coat : one.progress.last_coats()) {
      Ready ready = coat ? reached(*coat, Stage::kDustFree) : Ready{request.now, "", ""};
      if (ready.later_than(latest)) {
        ready.reason = fmt::format("Dust would settle on {}: {}", one.piece->name, ready.reason);
        latest = std::move(ready);
      }
    }
  }
  return latest;
}

}  // namespace coatwright
