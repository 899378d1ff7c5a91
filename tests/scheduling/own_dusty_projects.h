#pragma once

#include "own_projects.h"

/// Tiny projects whose exclusions bind: sanding at a bench and coats on a place, hours with nights
/// between, and films that outlast the coat.
namespace own {

class DustyDrawing {
 public:
  explicit DustyDrawing(std::uint64_t seed) : random_(seed) {}

  Project draw() {
    project_.horizon = 60;
    project_.resources = {{"bench", {{0, random_.between(1, 2)}}},
                          {"place", {{0, random_.between(1, 3)}}},
                          {"people", {{0, random_.between(1, 3)}}}};
    if (random_.chance(30)) {  // one is away for a time
      const Tick from = random_.between(0, 20);
      project_.resources[2].capacity.push_back({from, random_.between(1, 2)});
      project_.resources[2].capacity.push_back({from + random_.between(1, 12), 2});
    }
    project_.exclusions.push_back({"dust", {}, {}});
    const int pieces = random_.between(2, 3);
    for (int piece = 0; piece < pieces; ++piece) {
      add_piece(piece);
    }
    return project_;
  }

 private:
  /// Work of a length lies in days of 6 of 12 ticks.
  int hours_for(Tick length) {
    StartSet set;
    for (Tick day = 0; day < project_.horizon; day += 12) {
      set.spans.push_back({day, day + 6 - length});
    }
    project_.start_sets.push_back(set);
    return static_cast<int>(project_.start_sets.size()) - 1;
  }

  int add_work(const std::string& name, Tick length, int resource, Tick used) {
    project_.activities.push_back(
        {name, length, {{2, 1, 0, length}, {resource, 1, 0, used}}, hours_for(length)});
    return static_cast<int>(project_.activities.size()) - 1;
  }

  /// Sanded, coated, and now and then abraded too.
  void add_piece(int piece) {
    Job job{"piece " + std::to_string(piece), {}, random_.between(4, 30), random_.between(1, 3)};
    int before = -1;
    const int works = random_.between(2, 3);
    for (int i = 0; i < works; ++i) {
      const Tick length = random_.between(1, 3);
      const bool sands = i % 2 == 0;
      const int work =
          add_work(sands ? "sand" : "coat", length, sands ? 0 : 1, length + random_.between(0, 1));
      Exclusion& dust = project_.exclusions.front();
      if (sands) {
        dust.one_side.push_back({work, random_.between(0, length - 1), Lag{length}});
      } else {
        dust.other_side.push_back({work, 0, film(length + random_.between(0, 4))});
      }
      if (before >= 0) {
        project_.min_lags.push_back({before, work, film(random_.between(1, 6))});
      }
      before = work;
      job.activities.push_back(work);
    }
    project_.jobs.push_back(job);
  }

  /// The same whenever it begins, or longer at night.
  Lag film(Tick length) {
    if (random_.chance(40)) {
      return Lag{length};
    }
    std::vector<Tick> moments;
    Tick latest = 0;
    for (Tick start = 0; start <= project_.horizon; ++start) {
      latest = std::max(latest, start + length + (start % 12 >= 4 ? random_.between(0, 3) : 0));
      moments.push_back(latest);
    }
    return Lag{0, std::make_shared<TableLag>(moments)};
  }

  Random random_;
  Project project_;
};

inline Project dusty_project(std::uint64_t seed) {
  return DustyDrawing(seed).draw();
}

}  // namespace own
