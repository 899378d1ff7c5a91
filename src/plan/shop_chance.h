#pragma once

#include <functional>
#include <vector>

#include "plan/shop_search.h"

namespace coatwright {

/// How likely a shop's pieces end by their dates.
struct ShopChances {
  double all = 0.0;            ///< That every one does.
  std::vector<double> by_job;  ///< That this one does; 1 where it has no date.
};

/// The chance that pieces end by their dates: the highest confidence at which every wait can be
/// taken and a plan with these ways to recoat and shared sessions still has the piece, or all of
/// them, in time, to 1/32. Each confidence that is tried serves all pieces. All coats are slow
/// together there, and the search for each is short, so it is a cautious figure. Source: derived;
/// the sum of comonotone log-normal waits.
/// @param in_time by job: whether the plan that was found has it in time at its confidence; a job
/// that it leaves out has no chance.
/// @param stop true ends it with the best known so far.
[[nodiscard]] ShopChances chances_by_dates(const ShopRequest& request,
                                           const FoundShop& found,
                                           const std::vector<bool>& in_time,
                                           const RecipeBook& book,
                                           const AirRecord& air,
                                           const std::function<bool()>& stop);

}  // namespace coatwright
