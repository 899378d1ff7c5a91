#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "air/air_record.h"
#include "base/time.h"
#include "plan/shop_request.h"

namespace coatwright {

/// What a shop may change to end earlier.
enum class ChangeKind {
  kWarmer,
  kDrier,
  kEarlierStart,
  kLongerHours,
  kDayMore,
  kRackPlacesMore,
  kBenchMore,
  kSprayPlaceMore,
  kPersonMore,
  kOtherSchedule,
  kCoatFewer,
};

/// "warmer", "longer-hours" ... as JSON writes them.
[[nodiscard]] std::string_view name_of(ChangeKind kind);

/// One thing changed, by so much.
struct Change {
  ChangeKind kind = ChangeKind::kWarmer;
  /// kWarmer: C; kDrier: % at most; kLongerHours: hours a day; kDayMore: days; places or people
  /// more; kCoatFewer: the coats that are left.
  int amount = 0;
  std::vector<Interval> openings = {};  ///< kDayMore: what is added.
  Time start = {};                      ///< kEarlierStart, ...
  Time start_was = {};                  ///< ... in place of this one.
  std::string piece = {};               ///< kOtherSchedule, kCoatFewer; kEarlierStart where it is
                                        ///< one piece's that may begin earlier.
  std::string was = {};                 ///< Name of the schedule that it has.
  std::string product_title = {};       ///< kCoatFewer.
  int usual_least = 0;                  ///< kCoatFewer: coats that are usual of the product.
  int usual_most = 0;
  std::shared_ptr<const Schedule> schedule = {};  ///< kOtherSchedule, kCoatFewer: in its place.
  std::vector<std::string> lacks = {};  ///< kOtherSchedule: uses that only the present one suits.
  double burden = 0.0;                  ///< Sorts changes, the least first. Judgement.
};

/// A shop's work with the air to do it in.
struct WorkAndAir {
  ShopRequest shop;
  AirRecord air;
};

/// @param earlier hours before shop.from. The schedules that the changes hold must outlive the
/// result.
[[nodiscard]] WorkAndAir with_change(const WorkAndAir& basis,
                                     const std::vector<StaffedHours>& earlier,
                                     const Change& change);

/// The same work begun at another moment, before or after its own.
[[nodiscard]] ShopRequest begun_at(const ShopRequest& shop,
                                   const std::vector<StaffedHours>& earlier,
                                   Time start);

/// Hours that people are there, times people, between two moments.
[[nodiscard]] Hours presence_between(const std::vector<StaffedHours>& hours, Interval span);

}  // namespace coatwright
