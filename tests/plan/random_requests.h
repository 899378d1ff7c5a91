#pragma once

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "plan/plan_requests.h"
#include "recipe/schedule_check.h"

/// Requests drawn at random, each by its number and the same on every machine.
namespace asked {

using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

/// A case drawn at random, with all that lives as long as its request.
struct Drawn {
  Zone zone;
  PlanRequest request;
  AirRecord air;
  std::string schedule;
};

class Dice {
 public:
  explicit Dice(unsigned number) : engine_(number) {}
  // The standard distributions differ between libraries; these do not.
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(engine_()) / 4294967295.0;
  }
  int below(int count) { return static_cast<int>(engine_() % static_cast<unsigned>(count)); }
  template <class T>
  T one_of(const std::vector<T>& of) {
    return of[static_cast<std::size_t>(below(static_cast<int>(of.size())))];
  }

 private:
  std::mt19937 engine_;
};

inline std::string some_week(Dice& dice) {
  switch (dice.below(4)) {
    case 0:
      return "Mon-Fri 8:00-17:00; Sat 9:00-13:00";
    case 1:
      return "Mon-Sun 7:00-12:00, 13:00-19:00";
    case 2: {
      const int start = 6 + dice.below(5);
      return fmt::format("Mon-Fri {}:{:02}-{}:30; Sun 14:00-18:00",
                         start,
                         5 * dice.below(12),
                         start + 4 + dice.below(6));
    }
    default:
      return "Mon 16:00-22:00; Wed-Fri 16:00-22:00; Sat-Sun 8:00-20:00";
  }
}

/// Entries that swing by day and wander, with gaps, cold and damp stretches.
inline std::vector<AirEntry> some_entries(Dice& dice, Time from) {
  std::vector<AirEntry> entries;
  double middle = dice.between(15.0, 22.0);
  double humidity = dice.between(35.0, 60.0);
  const int days = dice.below(9);
  for (Time at = from - hours(8); at < from + hours(24 * days);
       at += minutes(30 + dice.below(90))) {
    if (dice.below(40) == 0) {
      at += hours(3 + dice.below(9));  // the logger was off
    }
    if (dice.below(60) == 0) {
      middle = dice.between(7.0, 24.0);
      humidity = dice.between(30.0, 90.0);
    }
    const double day =
        std::sin(static_cast<double>(at.time_since_epoch().count()) / 86400.0 * 6.2832);
    entries.push_back(
        forecast(at,
                 middle + 4.0 * day + dice.between(-0.5, 0.5),
                 std::clamp(humidity - 10.0 * day + dice.between(-3.0, 3.0), 15.0, 99.0)));
  }
  return entries;
}

/// A finish that a piece came in with; mostly none. What forbids the schedule's coats is not drawn.
inline void lay_old_finish(Dice& dice, PlanRequest& request, const std::string& schedule) {
  if (dice.below(6) != 0) {
    return;
  }
  const std::string finish = dice.one_of<std::string>({"old-finish",
                                                       "conversion-varnish",
                                                       "oil-modified-varnish",
                                                       "nitrocellulose-lacquer-spray",
                                                       "hardwax-oil"});
  const Product* over = *book().finish_on_piece(finish);
  const auto made = book().schedule_for(schedule, {request.piece.species, {}, over});
  const auto findings = made ? check_pairs(**made, over, book()) : std::vector<PairFinding>();
  if (made && findings && first_refusal(*findings) == nullptr) {
    request.piece.schedule = *made;
    request.piece.over = ExistingFinish{over, ExistingFinish::before(request.from)};
  }
}

/// The wood and the schedule made for it; where the wood does not bear the finish, another wood.
inline void take_some_wood(Dice& dice, PlanRequest& request, const std::string& schedule) {
  const std::vector<std::string> woods = *book().species_names();
  const std::vector<std::string> left = {"planed", "planed", "sawn", "scraped", "P120", "P150"};
  for (int tries = 0; tries < 20; ++tries) {
    request.piece.species = *book().species(dice.one_of(woods));
    const WoodSurface wood = *parse_wood_surface(dice.one_of(left));
    const auto made = book().schedule_for(schedule, {request.piece.species, wood, nullptr});
    if (made) {
      request.piece.schedule = *made;
      return;
    }
  }
}

inline bool rubs_out(const std::string& schedule) {
  const auto& steps = (**book().schedule(schedule)).steps;
  return std::any_of(steps.begin(), steps.end(), [](const ScheduleStep& step) {
    return step.kind == ScheduleStepKind::kRubOut;
  });
}

inline Drawn draw(unsigned number) {
  Dice dice(number);
  // The clocks are changed on 14 March 2027 in New York and on 28 March in Europe.
  const std::vector<std::string> zones = {
      "America/New_York", "Europe/Berlin", "Australia/Brisbane"};
  const Zone where = zone(dice.one_of(zones));
  const Time from =
      at("2027-03-08T00:00:00Z") + minutes(5 * dice.below(12 * 24 * 16)) + minutes(dice.below(5));
  Asked one;
  one.schedule = dice.one_of(book().schedule_names());
  one.square_metres = dice.between(0.2, 6.0);
  one.faces = dice.one_of<Faces>({Faces::kOne, Faces::kTwo, Faces::kOnPoints});
  one.confidence = dice.between(0.6, 0.97);
  one.week = some_week(dice);
  one.given_up_after = hours(24 * (rubs_out(one.schedule) ? 70 : 14));
  Drawn drawn{where,
              request(one, from, from + hours(24 * (3 + dice.below(9))), where),
              {some_entries(dice, from),
               *UsualDay::parse(fmt::format("6:00 {:.1f}C 55%; 14:00 {:.1f}C {}%; 22:00 15C 50%",
                                            dice.between(8.0, 18.0),
                                            dice.between(17.0, 29.0),
                                            35 + dice.below(30))),
               where},
              one.schedule};
  take_some_wood(dice, drawn.request, one.schedule);
  lay_old_finish(dice, drawn.request, one.schedule);
  return drawn;
}

inline std::string in_words(unsigned number, const Drawn& drawn) {
  const PieceRequest& piece = drawn.request.piece;
  return fmt::format("case {}: {} on {}{}, in {}, {:.2f} m2, faces {}, from {}, confidence {:.3f}",
                     number,
                     drawn.schedule,
                     piece.species->name,
                     piece.over ? " over " + piece.over->product->name : "",
                     drawn.zone.name(),
                     drawn.request.piece.area.square_metres(),
                     static_cast<int>(drawn.request.piece.faces),
                     show_utc(drawn.request.from),
                     drawn.request.confidence);
}

}  // namespace asked
