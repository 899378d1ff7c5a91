#include "shop_weeks.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <utility>

#include "scheduling/own_projects.h"

namespace coatwright {
namespace {

constexpr Tick kHour = 60;
constexpr Tick kDay = 24 * kHour;
constexpr int kDaysBeyond = 20;  // so long the air is known past the horizon

/// Moments that are written down for the starts on the grain.
class GrainTable : public LagFunction {
 public:
  GrainTable(Tick grain, std::vector<Tick> moments) : grain_(grain), moments_(std::move(moments)) {}
  [[nodiscard]] Tick at(Tick start) const override {
    return moments_.at(static_cast<std::size_t>(start / grain_));
  }

 private:
  Tick grain_;
  std::vector<Tick> moments_;
};

/// How far a film has dried by each grain of time, in milliseconds at the reference: whole numbers,
/// so that every machine draws the same tables but for the last digit of a sine.
class InventedAir {
 public:
  InventedAir(const ShopSize& size, own::Random& random) : grain_(size.grain) {
    earned_.push_back(0);
    const int slots = (size.days + kDaysBeyond) * kDay / grain_;
    double day_factor = 1.0;
    for (int slot = 0; slot < slots; ++slot) {
      const Tick minute = slot * grain_;
      if (minute % kDay == 0) {
        day_factor = random.between(80, 120) / 100.0;
      }
      const double hour = (minute % kDay) / 60.0;
      const double rate =
          day_factor * (1.0 + 0.4 * std::sin(2.0 * std::numbers::pi * (hour - 9.0) / 24.0));
      earned_.push_back(earned_.back() + std::llround(60'000.0 * rate) * grain_);
    }
  }

  /// @param length of the work after which the film begins. @param minutes at the reference.
  /// @return the moment when it has dried for so long, by the start of the work: rounded up to the
  /// grain for what opens, down for what closes.
  [[nodiscard]] std::shared_ptr<const LagFunction> reached(Tick length,
                                                           Tick minutes,
                                                           Tick horizon,
                                                           bool closes) const {
    std::vector<Tick> moments;
    for (Tick start = 0; start <= horizon; start += grain_) {
      const auto begin = earned_.begin() + (start + length) / grain_;
      const std::int64_t wanted = *begin + std::int64_t{60'000} * minutes;
      const auto at = closes ? std::upper_bound(begin, earned_.end(), wanted) - 1
                             : std::lower_bound(begin, earned_.end(), wanted);
      const bool known = at != earned_.end() && (!closes || at + 1 != earned_.end());
      moments.push_back(known ? static_cast<Tick>(at - earned_.begin()) * grain_ : kNeverTick);
    }
    return std::make_shared<GrainTable>(grain_, std::move(moments));
  }

 private:
  Tick grain_;
  std::vector<std::int64_t> earned_;
};

enum class Resources { kPeople, kSprayPlace, kRack, kBench };

int index_of(Resources resource) {
  return static_cast<int>(resource);
}

/// Writes one shop down, piece by piece.
class ShopDrawing {
 public:
  explicit ShopDrawing(const ShopSize& size)
      : size_(size), random_(size.seed), air_(size, random_) {
    project_.grain = size.grain;
    project_.horizon = size.days * kDay;
    add_resources();
    project_.exclusions.push_back({"dust on wet films", {}, {}});
  }

  Project draw() {
    for (int piece = 0; piece < size_.pieces; ++piece) {
      add_piece(piece);
    }
    return project_;
  }

 private:
  /// A coat that was laid last on the piece at hand: its recoat window counts from it.
  struct Film {
    int coat;
    Tick length;
  };

  void add_resources() {
    Resource people{"people", {{0, size_.people}}};
    if (size_.people > 1) {
      people.capacity.push_back({2 * kDay, size_.people - 1});
      people.capacity.push_back({3 * kDay, size_.people});
    }
    const int rack_places =
        random_.between(std::max(2, size_.pieces / 2), std::max(2, size_.pieces));
    project_.resources = {people,
                          {"spray place", {{0, size_.spray_places}}},
                          {"rack", {{0, rack_places}}},
                          {"bench", {{0, size_.people > 1 ? 2 : 1}}}};
  }

  /// Starts from which work of a length lies in the hours of one half of a day, from a day on.
  int start_set_for(Tick length, int first_day = 0) {
    const auto known = start_sets_.find({length, first_day});
    if (known != start_sets_.end()) {
      return known->second;
    }
    StartSet set;
    for (int day = first_day; day < size_.days; ++day) {
      const bool closed = day % 7 == 6 || (day % 7 == 5 && size_.seed % 3 != 0);
      for (const Tick opens : {8 * kHour, 13 * kHour}) {
        if (!closed && (day % 7 != 5 || opens == 8 * kHour)) {
          const Tick first = day * kDay + opens;
          set.spans.push_back({first, first + 4 * kHour - length});
        }
      }
    }
    project_.start_sets.push_back(set);
    const int index = static_cast<int>(project_.start_sets.size()) - 1;
    start_sets_.emplace(std::pair{length, first_day}, index);
    return index;
  }

  Lag dried(Tick length, Tick minutes, bool closes) {
    auto& table = tables_[{length, minutes, closes}];
    if (!table) {
      table = air_.reached(length, minutes, project_.horizon, closes);
    }
    return Lag{0, table};
  }

  int add_step(const std::string& name, Tick length) {
    project_.activities.push_back(
        {name, length, {{index_of(Resources::kPeople), 1, 0, length}}, start_set_for(length)});
    project_.jobs.back().activities.push_back(last_step());
    return last_step();
  }
  [[nodiscard]] int last_step() const { return static_cast<int>(project_.activities.size()) - 1; }

  /// Sanding or abrading: dust that settles half an hour after it.
  int add_sanding(const std::string& name, Tick length, bool near_films) {
    const int step = add_step(name, length);
    project_.activities.back().demands.push_back({index_of(Resources::kBench), 1, 0, length});
    if (near_films) {
      project_.exclusions.front().one_side.push_back({step, 0, Lag{length}});
    }
    return step;
  }

  /// A coat: the spray place is aired for a quarter of an hour, and dust stays away until it is
  /// dust-free.
  int add_coat(const std::string& name, Tick length) {
    const int step = add_step(name, length);
    project_.activities.back().demands.push_back(
        {index_of(Resources::kSprayPlace), 1, 0, length + 15});
    const Tick dust_free = 15 * random_.between(2, 6);
    project_.exclusions.front().other_side.push_back({step, 0, dried(length, dust_free, false)});
    return step;
  }

  /// What follows a coat waits until it has dried; the piece lies on the rack until then.
  void follow_coat(const Film& film, int next, Tick dry_minutes) {
    project_.min_lags.push_back({film.coat, next, dried(film.length, dry_minutes, false)});
    project_.holds.push_back(
        {index_of(Resources::kRack), 1, film.coat, film.length, next, 0, Lag{}});
  }

  Tick quarters(int low, int high) { return 15 * random_.between(low, high); }

  void add_piece(int piece) {
    Job job;
    job.name = "piece " + std::to_string(piece + 1);
    const int arrival = size_.last_arrival > 0 ? random_.between(0, size_.last_arrival) : 0;
    const int due = arrival + random_.between(size_.first_due, size_.last_due);
    job.due = due * kDay + 17 * kHour;
    job.weight = random_.between(1, 3);
    project_.jobs.push_back(job);
    const int steps = random_.between(size_.least_steps, size_.most_steps);
    const Tick sanding = quarters(3, 8);
    const int sanded = add_sanding(job.name + " sand", sanding, !size_.sands_apart);
    project_.activities.back().starts = start_set_for(sanding, arrival);
    int left = steps - 2;
    const Film film = add_coats(job.name, sanded, sanding, left);
    const int last = add_step(job.name + " hardware", quarters(2, 6));
    follow_coat(film, last, kHour * random_.between(10, 20));
  }

  /// Coats with and without abrading between, as many steps as are left.
  Film add_coats(const std::string& piece, int sanded, Tick sanding, int left) {
    Film film{-1, 0};
    while (left > 0) {
      int after = film.coat;
      const bool abrades = film.coat != -1 && left > 1 && random_.chance(60);
      if (abrades) {
        const Tick abrading = quarters(1, 3);
        after = add_sanding(piece + " abrade", abrading, true);
        follow_coat(film, after, kHour * random_.between(3, 9));
        --left;
      }
      const Tick length = quarters(1, 3);
      const int coat = add_coat(piece + " coat", length);
      join(film, abrades, after, sanded, sanding, coat);
      film = {coat, length};
      --left;
    }
    return film;
  }

  /// Orders a coat after what came before it, and within the recoat window.
  void join(const Film& film, bool abrades, int after, int sanded, Tick sanding, int coat) {
    if (film.coat == -1) {
      project_.min_lags.push_back({sanded, coat, Lag{sanding + 30}});
      return;
    }
    const Tick opens = kHour * random_.between(2, 5);
    if (abrades) {
      const Tick abrading = project_.activities[static_cast<std::size_t>(after)].length;
      project_.min_lags.push_back({after, coat, Lag{abrading + 30}});
    } else {
      follow_coat(film, coat, opens);
    }
    if (random_.chance(60)) {
      const Tick closes =
          abrades ? kHour * random_.between(40, 90) : opens + kHour * random_.between(3, 26);
      project_.max_lags.push_back({film.coat, coat, dried(film.length, closes, true)});
    }
  }

  struct TableKey {
    Tick length, minutes;
    bool closes;
    auto operator<=>(const TableKey&) const = default;
  };

  ShopSize size_;
  own::Random random_;
  InventedAir air_;
  Project project_;
  std::map<std::pair<Tick, int>, int> start_sets_;
  std::map<TableKey, std::shared_ptr<const LagFunction>> tables_;
};

}  // namespace

Project invented_shop(const ShopSize& size) {
  return ShopDrawing(size).draw();
}

Project shop_week(unsigned seed) {
  own::Random random(seed + 7'000'000);
  ShopSize size;
  size.pieces = random.between(2, 6);
  size.people = random.between(1, 3);
  size.seed = seed;
  return invented_shop(size);
}

ShopSize busy_fortnight(unsigned seed) {
  ShopSize size;
  size.pieces = 12;
  size.least_steps = size.most_steps = 10;
  size.days = 21;
  size.first_due = 5;
  size.last_due = 14;
  size.grain = 5;
  size.seed = seed;
  return size;
}

}  // namespace coatwright
