#pragma once

#include <string>
#include <vector>

#include "scheduling/project.h"

/// A large shop in minutes: days of two halves of four hours; pieces that are coated, abraded and
/// coated again; films that are wet for a while after their coat, and dust that keeps off them.
namespace own {

inline constexpr int kPeopleThere = 4;
inline constexpr int kBenches = 2;
inline constexpr int kSprayPlaces = 1;
inline constexpr int kHalfDay = 240;
inline constexpr int kFilmIsWet = 90;
inline constexpr int kCoatDries = 180;
inline constexpr int kAbrading = 30;
inline constexpr int kCoating = 15;

inline int opens(int day, int half) {
  return day * 1440 + (half == 0 ? 8 : 13) * 60;
}

inline int start_set_for(coatwright::Project& project, int length, int days) {
  coatwright::StartSet set;
  for (int day = 0; day < days; ++day) {
    for (const int half : {0, 1}) {
      set.spans.push_back({opens(day, half), opens(day, half) + kHalfDay - length});
    }
  }
  project.start_sets.push_back(set);
  return static_cast<int>(project.start_sets.size()) - 1;
}

/// @param abrasions of each piece, with a coat before each and one after the last.
inline coatwright::Project large_shop(int pieces, int abrasions, int days) {
  coatwright::Project project;
  project.grain = 5;
  project.horizon = days * 1440;
  project.resources = {{"people", {{0, kPeopleThere}}},
                       {"bench", {{0, kBenches}}},
                       {"spray place", {{0, kSprayPlaces}}}};
  project.exclusions.push_back({"dust", {}, {}});
  const int coats = start_set_for(project, kCoating, days);
  const int abrades = start_set_for(project, kAbrading, days);
  const auto add = [&](const std::string& name, int length, int place, int starts) {
    const int step = static_cast<int>(project.activities.size());
    project.activities.push_back(
        {name, length, {{0, 1, 0, length}, {place, 1, 0, length}}, starts});
    project.jobs.back().activities.push_back(step);
    return step;
  };
  for (int piece = 0; piece < pieces; ++piece) {
    project.jobs.push_back({"piece " + std::to_string(piece + 1), {}, coatwright::kNeverTick, 1});
    int before = -1;
    for (int i = 0; i <= 2 * abrasions; ++i) {
      const bool is_coat = i % 2 == 0;
      const int step =
          is_coat ? add("coat", kCoating, 2, coats) : add("abrade", kAbrading, 1, abrades);
      if (is_coat) {
        project.exclusions.front().other_side.push_back(
            {step, 0, coatwright::Lag{kCoating + kFilmIsWet}});
      } else {
        project.exclusions.front().one_side.push_back({step, 0, coatwright::Lag{kAbrading}});
      }
      if (before >= 0) {
        const int wait = is_coat ? kAbrading : kCoating + kCoatDries;
        project.min_lags.push_back({before, step, coatwright::Lag{wait}});
      }
      before = step;
    }
  }
  return project;
}

}  // namespace own
