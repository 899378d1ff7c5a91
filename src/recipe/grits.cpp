#include "recipe/grits.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

#include <fmt/format.h>

namespace coatwright {
namespace {

struct Grain {
  std::string_view grit;
  double um;
};

// ISO 6344-2 (to P220, sieved) and ISO 6344-3 (from P240, settled), as copied by a page.
constexpr std::array<Grain, 28> kGrains = {
    {{"P12", 1815},   {"P16", 1324},   {"P20", 1000},  {"P24", 764},    {"P30", 642},
     {"P36", 538},    {"P40", 425},    {"P50", 336},   {"P60", 269},    {"P80", 201},
     {"P100", 162},   {"P120", 125},   {"P150", 100},  {"P180", 82},    {"P220", 68},
     {"P240", 58.5},  {"P280", 52.2},  {"P320", 46.2}, {"P360", 40.5},  {"P400", 35.0},
     {"P500", 30.2},  {"P600", 25.8},  {"P800", 21.8}, {"P1000", 18.3}, {"P1200", 15.3},
     {"P1500", 12.6}, {"P2000", 10.3}, {"P2500", 8.4}}};

/// The best way found to a grit.
struct Way {
  std::size_t steps = std::numeric_limits<std::size_t>::max();
  double unevenness = 0;  ///< Sum of the squares of the ratios' logarithms.
  std::size_t from = 0;

  [[nodiscard]] bool better_than(const Way& other) const {
    return std::pair(steps, unevenness) < std::pair(other.steps, other.unevenness);
  }
};

/// The trade grits between two others, with those two at the ends; coarse to fine.
std::vector<std::string_view> candidates(std::string_view first, std::string_view last) {
  const double coarse = *mean_grain_um(first);
  const double fine = *mean_grain_um(last);
  std::vector<std::string_view> grits = {first};
  for (const std::string_view grit : trade_grits()) {
    const double um = *mean_grain_um(grit);
    if (um < coarse && um > fine) {
      grits.push_back(grit);
    }
  }
  grits.push_back(last);
  return grits;
}

/// @return the best way to each of the grits by good jumps alone.
std::vector<Way> ways_through(const std::vector<std::string_view>& grits) {
  std::vector<Way> ways(grits.size());
  ways.front().steps = 0;
  for (std::size_t to = 1; to < grits.size(); ++to) {
    for (std::size_t from = 0; from < to; ++from) {
      const double ratio = *grit_ratio(grits[from], grits[to]);
      if (grit_jump(ratio) != GritJump::kGood || ways[from].steps > grits.size()) {
        continue;
      }
      const double logarithm = std::log(ratio);
      const Way way = {ways[from].steps + 1, ways[from].unevenness + logarithm * logarithm, from};
      if (way.better_than(ways[to])) {
        ways[to] = way;
      }
    }
  }
  return ways;
}

}  // namespace

std::optional<double> mean_grain_um(std::string_view grit) {
  for (const Grain& grain : kGrains) {
    if (grain.grit == grit) {
      return grain.um;
    }
  }
  return std::nullopt;
}

std::optional<double> grit_ratio(std::string_view from, std::string_view to) {
  const std::optional<double> coarse = mean_grain_um(from);
  const std::optional<double> fine = mean_grain_um(to);
  if (!coarse || !fine) {
    return std::nullopt;
  }
  return *coarse / *fine;
}

GritJump grit_jump(double ratio) {
  if (ratio <= kGoodGritRatio) {
    return GritJump::kGood;
  }
  return ratio <= kMostGritRatio ? GritJump::kLarge : GritJump::kTooLarge;
}

std::string GritRemark::text() const {
  std::string text = fmt::format(
      "From {} to {} is {} jump: the grains are {:.2f} times as large, and {:.2f} is {}",
      from,
      to,
      jump == GritJump::kLarge ? "a large" : "too large a",
      ratio,
      jump == GritJump::kLarge ? kGoodGritRatio : kMostGritRatio,
      jump == GritJump::kLarge ? "good" : "the most");
  text += between.empty() ? "" : fmt::format("; {} in between", fmt::join(between, ", "));
  return text + ".";
}

std::vector<GritRemark> grit_remarks(const std::vector<std::string>& grits) {
  std::vector<GritRemark> remarks;
  for (std::size_t i = 1; i < grits.size(); ++i) {
    const std::optional<double> ratio = grit_ratio(grits[i - 1], grits[i]);
    if (!ratio || grit_jump(*ratio) == GritJump::kGood) {
      continue;
    }
    GritRemark remark = {grits[i - 1], grits[i], *ratio, grit_jump(*ratio), {}};
    if (const auto sequence = sanding_sequence(remark.from, remark.to)) {
      remark.between.assign(sequence->begin() + 1, sequence->end() - 1);
    }
    remarks.push_back(std::move(remark));
  }
  return remarks;
}

const std::vector<std::string_view>& trade_grits() {
  static const std::vector<std::string_view> kGrits = {"P40",
                                                       "P60",
                                                       "P80",
                                                       "P100",
                                                       "P120",
                                                       "P150",
                                                       "P180",
                                                       "P220",
                                                       "P240",
                                                       "P320",
                                                       "P400",
                                                       "P600",
                                                       "P800",
                                                       "P1000",
                                                       "P1200",
                                                       "P1500",
                                                       "P2000",
                                                       "P2500"};
  return kGrits;
}

Result<std::vector<std::string>> sanding_sequence(std::string_view first, std::string_view last) {
  for (const std::string_view grit : {first, last}) {
    if (!mean_grain_um(grit)) {
      return fail(ErrorCode::kOutOfRange,
                  fmt::format("'{}' is no grit; allowed: P12 to P2500 of FEPA", grit));
    }
  }
  if (*grit_ratio(first, last) <= 1.0) {
    return std::vector<std::string>{std::string(last)};
  }
  const std::vector<std::string_view> grits = candidates(first, last);
  const std::vector<Way> ways = ways_through(grits);
  if (ways.back().steps > grits.size()) {
    return fail(ErrorCode::kOutOfRange,
                fmt::format("no grits of the trade lead from {} to {}", first, last));
  }
  std::vector<std::string> sequence;
  for (std::size_t at = grits.size() - 1; at != 0; at = ways[at].from) {
    sequence.emplace_back(grits[at]);
  }
  sequence.emplace_back(first);
  std::reverse(sequence.begin(), sequence.end());
  return sequence;
}

}  // namespace coatwright
