#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/units.h"
#include "recipe/product.h"

/// In which portions a product of several parts is mixed.
namespace coatwright {

/// What is put on in one go: a coat on the faces that one session can coat.
struct CoatSession {
  Area area = Area::from_square_metres(0);
  Hours work = Hours::from_hours(0);  ///< How long putting it on takes, the slow end.
};

/// The air in which it is mixed and put on.
struct BatchAir {
  Temperature temperature;
  RelativeHumidity humidity;
};

/// Portions of equal size for one session.
struct SessionBatches {
  std::string piece;
  int coat = 0;   ///< Of the product on the piece, from 1.
  int count = 0;  ///< At least 1.
  Volume each = Volume::from_litres(0);
  Hours work = Hours::from_hours(0);  ///< Of one portion.
};

struct Batches {
  /// The low end in this air, never longer than at the reference; none: not known.
  std::optional<Hours> pot_life;
  /// What of it is left after standing.
  std::optional<Hours> usable;
  bool too_short = false;  ///< Less than a minute is: it cannot be used in this air.
  std::vector<SessionBatches> sessions;

  [[nodiscard]] int count() const;
};

/// How long a mix may be used in an air: the low end of its pot life over the rate of its law. Warm
/// air shortens it; in cold air it is not longer than at the reference.
/// @return nothing where the pot life is not known.
/// Source: derived, the equivalent age of docs/formulas.md; the careful side in cold air is
/// [judgement].
[[nodiscard]] std::optional<Hours> pot_life_in(const Mix& mix, const BatchAir& air);

/// What of a pot life is left for work when the mix has stood for its induction time: that runs
/// from the mixing on. @return at least 0.
[[nodiscard]] Hours usable_life(Hours pot_life, const Mix& mix);

/// How many portions a session needs: the fewest of which each is put on in the usable life.
/// @param usable above 0; none: not known, then one. @return at least 1.
[[nodiscard]] int portions(Hours work, std::optional<Hours> usable);

}  // namespace coatwright
