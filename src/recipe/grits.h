#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

/// Coated abrasives: how coarse a grit is, and which may follow which.
namespace coatwright {

/// @param grit "P12" to "P2500". @return its mean particle size in um; nothing for another name.
/// Source: FEPA 43 and ISO 6344 (iso_6344), read in a copy of their table.
[[nodiscard]] std::optional<double> mean_grain_um(std::string_view grit);

/// What a change from one grit to a finer one is worth.
enum class GritJump {
  kGood,      ///< The finer grit takes out the scratches of the coarser.
  kLarge,     ///< Allowed with a remark: it takes longer, and scratches may stay.
  kTooLarge,  ///< Deep scratches stay; not allowed.
};

/// Largest ratio of mean particle sizes that is good, and that is still allowed.
/// Source: judgement, derived from sequences that the trade publishes: P80-P120-P180-P220 has 1.61
/// at most; P80-P150 of the sequence P80-P150-P220-P320 has 2.01; P80-P180, called a skip, 2.45.
inline constexpr double kGoodGritRatio = 1.65;
inline constexpr double kMostGritRatio = 2.05;

/// @return the ratio of mean particle sizes, coarser over finer where the order is that of sanding;
/// nothing where either is no grit.
[[nodiscard]] std::optional<double> grit_ratio(std::string_view from, std::string_view to);

/// @param ratio of mean particle sizes.
[[nodiscard]] GritJump grit_jump(double ratio);

/// A change of grits that is not good.
struct GritRemark {
  std::string from;
  std::string to;
  double ratio = 0;
  GritJump jump = GritJump::kLarge;
  std::vector<std::string> between;  ///< The grits that would make it good.

  /// @return one sentence, capital and period: what is the matter, and what would mend it.
  [[nodiscard]] std::string text() const;
};

/// Judges a maker's own list of grits, each finer than the one before. @return its changes of grit
/// that are not good, in their order; names that are no grits are passed over.
[[nodiscard]] std::vector<GritRemark> grit_remarks(const std::vector<std::string>& grits);

/// The grits which shops keep, P40 to P2500; a sequence is made of them.
[[nodiscard]] const std::vector<std::string_view>& trade_grits();

/// The grits from the first to the last, both with: the fewest trade grits in between with which
/// every change is good, and of those the evenest, in which the squares of the logarithms of the
/// ratios add up to least. @param first,last "P12" to "P2500". @return the last alone where it is
/// not finer than the first. Errors: kOutOfRange where either is no grit, or where no trade grits
/// lead from one to the other.
[[nodiscard]] Result<std::vector<std::string>> sanding_sequence(std::string_view first,
                                                                std::string_view last);

}  // namespace coatwright
