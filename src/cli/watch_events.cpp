#include "cli/watch_events.h"

#include <map>

#include <fmt/format.h>

#include "report/now_page.h"

namespace coatwright {
namespace {

enum class Look { kShut, kMayBeDone, kClosesSoon };

Look look_of(const StepNow& step, Time at) {
  if (closes_soon(step, at)) {
    return Look::kClosesSoon;
  }
  const bool may = step.readiness == Readiness::kMayBeDone || step.readiness == Readiness::kOpen;
  return may ? Look::kMayBeDone : Look::kShut;
}

std::string name_of_step(const PieceNow& piece, const StepNow& step) {
  return fmt::format("{} ({})", sentence_of(step), piece.piece);
}

}  // namespace

std::vector<std::string> watch_events(const std::vector<PieceNow>* before,
                                      Time before_at,
                                      const std::vector<PieceNow>& after,
                                      Time after_at,
                                      const Zone& zone) {
  std::map<std::string, Look> looked;
  for (const PieceNow& piece : before == nullptr ? std::vector<PieceNow>() : *before) {
    for (const StepNow& step : piece.steps) {
      looked[name_of_step(piece, step)] = look_of(step, before_at);
    }
  }
  std::vector<std::string> events;
  for (const PieceNow& piece : after) {
    for (const StepNow& step : piece.steps) {
      const std::string name = name_of_step(piece, step);
      const Look now = look_of(step, after_at);
      const auto known = looked.find(name);
      const Look then = known != looked.end() ? known->second
                        : before == nullptr   ? Look::kMayBeDone
                                              : Look::kShut;
      if (now <= then) {
        continue;
      }
      events.push_back(
          now == Look::kClosesSoon
              ? fmt::format("Closes at {}: {}", show_clock(*step.closes_at, zone), name)
              : fmt::format("May be done now: {}", name));
    }
  }
  return events;
}

}  // namespace coatwright
