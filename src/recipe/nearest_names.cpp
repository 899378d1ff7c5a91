#include "recipe/nearest_names.h"

#include <algorithm>
#include <numeric>
#include <utility>

#include <fmt/format.h>

namespace coatwright {
namespace {

constexpr std::size_t kMostNames = 3;

/// How far off a name may be to count as a slip of the finger: a third of it, at least two letters.
std::size_t slip(std::string_view name) {
  return std::max<std::size_t>(2, name.size() / 3);
}

}  // namespace

std::size_t edit_distance(std::string_view from, std::string_view to) {
  std::vector<std::size_t> row(to.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 1; i <= from.size(); ++i) {
    std::size_t diagonal = std::exchange(row[0], i);
    for (std::size_t j = 1; j <= to.size(); ++j) {
      const std::size_t change = diagonal + (from[i - 1] == to[j - 1] ? 0 : 1);
      diagonal = std::exchange(row[j], std::min({change, row[j] + 1, row[j - 1] + 1}));
    }
  }
  return row.back();
}

std::vector<std::string> nearest_names(std::string_view name,
                                       const std::vector<std::string>& known) {
  std::vector<std::pair<std::size_t, std::string>> near;
  for (const std::string& candidate : known) {
    const std::size_t distance = edit_distance(name, candidate);
    const bool contains = name.size() >= 3 && candidate.find(name) != std::string::npos;
    if (contains || distance <= slip(name)) {
      near.emplace_back(distance, candidate);
    }
  }
  std::sort(near.begin(), near.end());
  std::vector<std::string> names;
  for (std::size_t i = 0; i < std::min(kMostNames, near.size()); ++i) {
    names.push_back(near[i].second);
  }
  return names;
}

std::string no_such_name(std::string_view what,
                         std::string_view name,
                         const std::vector<std::string>& known) {
  const std::vector<std::string> near = nearest_names(name, known);
  if (!near.empty()) {
    return fmt::format(
        "there is no {} '{}'; the nearest names are: {}", what, name, fmt::join(near, ", "));
  }
  return fmt::format("there is no {} '{}'; known are: {}", what, name, fmt::join(known, ", "));
}

}  // namespace coatwright
