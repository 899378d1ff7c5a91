#include "quantity/batches.h"

#include <algorithm>
#include <cmath>

namespace coatwright {
namespace {

constexpr double kRounding = 1e-9;  // relative: a portion that fits exactly is one portion

}  // namespace

int Batches::count() const {
  int sum = 0;
  for (const SessionBatches& session : sessions) {
    sum += session.count;
  }
  return sum;
}

std::optional<Hours> pot_life_in(const Mix& mix, const BatchAir& air) {
  if (!mix.pot_life) {
    return std::nullopt;
  }
  const double rate = std::max(1.0, mix.pot_life_law.rate(air.temperature, air.humidity));
  return mix.pot_life->low() * (1.0 / rate);
}

Hours usable_life(Hours pot_life, const Mix& mix) {
  return std::max(Hours::from_hours(0), pot_life - mix.induction);
}

int portions(Hours work, std::optional<Hours> usable) {
  if (!usable) {
    return 1;
  }
  return std::max(1, static_cast<int>(std::ceil(work.hours() / usable->hours() - kRounding)));
}

}  // namespace coatwright
