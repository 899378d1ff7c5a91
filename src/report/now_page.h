#pragma once

#include <string>
#include <vector>

#include "air/air_record.h"
#include "plan/what_now.h"

namespace coatwright {

/// What `now` and the day's page are written from.
struct NowView {
  Time now;
  AirState air;
  const std::vector<PieceNow>& pieces;
  const Zone& zone;
  UnitSystem units;
};

/// What may be done, piece by piece: what closes first, then open, may be done, not yet.
[[nodiscard]] std::string show_now(const NowView& view);
[[nodiscard]] std::string now_as_json(const NowView& view);

/// Whether a step may be done now and its window closes within the hour.
[[nodiscard]] bool closes_soon(const StepNow& step, Time now);

/// "Spray coat 2 of nitrocellulose lacquer on the piece".
[[nodiscard]] std::string sentence_of(const StepNow& step);

}  // namespace coatwright
