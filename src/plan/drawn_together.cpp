#include "plan/drawn_together.h"

#include <algorithm>

#include "plan/interruptions.h"
#include "scheduling/fewer_breaks.h"

namespace coatwright {
namespace {

/// Placements for each node of the search, and how many at the most: less than a tenth of its time.
constexpr std::int64_t kPlacementsPerNode = 20;
constexpr std::int64_t kMostPlacements = 200'000;

}  // namespace

Result<std::optional<FoundShop>> draw_together(const ShopContext& context,
                                               const FoundShop& found,
                                               const SearchWatch& watch) {
  const ShopModel& model = found.model;
  std::optional<WrittenShop> last;
  std::optional<Error> error;
  // The project's times are rounded: only what is written tells whether a schedule holds.
  const auto may_be = [&](const StartTimes& schedule) {
    auto written = write_shop(context, model, schedule);
    if (!written) {
      error = written.error();
    } else if (!written->misplaced) {
      last = std::move(*written);
      return true;
    }
    return false;
  };
  const std::int64_t most = std::min(kMostPlacements, kPlacementsPerNode * context.request.effort);
  const FewerBreaks drawn =
      fewer_breaks(model.project, model.resources.people, found.schedule, most, may_be, watch.stop);
  if (error) {
    return pass_on(*error);
  }
  if (!last) {
    return std::optional<FoundShop>();
  }
  return FoundShop{found.choice,
                   model,
                   drawn.schedule,
                   cost_of(model.project, drawn.schedule),
                   breaks_in_work(model, drawn.schedule) + gun_cleanings(model),
                   std::move(*last)};
}

}  // namespace coatwright
