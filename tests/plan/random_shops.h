#pragma once

#include <string>
#include <vector>

#include "plan/random_requests.h"
#include "plan/shop_requests.h"

/// Shops drawn at random, each by its number and the same on every machine.
namespace asked {

struct DrawnShop {
  Drawn first;  ///< Zone, air, hours and the first part.
  ShopRequest request;
};

inline PartRequest some_part(Dice& dice, int number) {
  const std::vector<std::string> schedules = {"precatalysed-lacquer",
                                              "precatalysed-lacquer",
                                              "wiping-varnish",
                                              "brushed-varnish",
                                              "shellac-and-waterborne",
                                              "hardwax-oil",
                                              "brushed-shellac",
                                              "conversion-varnish"};
  PartRequest one = part("part " + std::to_string(number),
                         dice.one_of(schedules),
                         dice.between(0.2, 3.0),
                         dice.one_of<Faces>({Faces::kOne, Faces::kTwo, Faces::kOnPoints}));
  one.rack_places = 1 + dice.below(2);
  return one;
}

/// A white glue of an invented figure.
inline const Glue& some_glue() {
  static const Glue glue{"white",
                         "white glue",
                         Hours::from_minutes(12),
                         Hours::from_minutes(20),
                         Hours::from_minutes(40),
                         Hours::from_hours(2),
                         Hours::from_hours(24),
                         Temperature::from_celsius(9.0),
                         Temperature::from_celsius(34.0),
                         rate_law_of(Mechanism::kWaterLoss),
                         "judgement",
                         "judgement",
                         "",
                         "",
                         "",
                         "",
                         "",
                         Hours::from_hours(9),
                         "judgement"};
  return glue;
}

inline void add_some_builds(Dice& dice, JobRequest& job) {
  std::vector<int> all;
  for (int i = 0; i < static_cast<int>(job.parts.size()); ++i) {
    all.push_back(i);
  }
  if (dice.below(2) == 0) {
    BuildWork glue = build(StepKind::kGlue, {0}, 10, true);
    glue.glue = &some_glue();
    glue.people = 1 + dice.below(2);
    job.build.push_back(glue);
    if (glue.people > 1) {
      job.build.push_back(build(StepKind::kSand, {0}, 15, true));
    }
  }
  if (job.parts.size() > 1) {
    job.build.push_back(build(StepKind::kAssemble, all, 30 + dice.below(60)));
  }
  if (dice.below(2) == 0) {
    BuildWork deliver = build(StepKind::kDeliver, all, 20);
    deliver.needs = Stage::kPrintFree;
    deliver.at_bench = false;
    job.build.push_back(deliver);
  }
}

inline DrawnShop draw_shop(unsigned number) {
  DrawnShop shop{draw(number), {}};
  Dice dice(number + 7000);
  const PlanRequest& first = shop.first.request;
  ShopRequest& request = shop.request;
  request.made_at = first.made_at;
  request.from = first.from;
  request.horizon = first.horizon + hours(24 * 30);
  request.confidence = first.confidence;
  request.effort = 1500;
  const int people = 1 + dice.below(3);
  for (const Interval& open :
       openings(some_week(dice), request.from, request.horizon, shop.first.zone)) {
    request.hours.push_back({open, std::max(2, people)});
    if (dice.below(4) == 0) {
      request.hours.back().people = 2 + dice.below(2);
    }
  }
  const int jobs = 1 + dice.below(3);
  int parts = 0;
  for (int i = 0; i < jobs; ++i) {
    std::vector<PartRequest> of_job;
    for (int left = 1 + dice.below(2); left > 0; --left) {
      of_job.push_back(some_part(dice, ++parts));
    }
    JobRequest one = job("piece " + std::to_string(i + 1), of_job);
    if (dice.below(3) != 0) {
      one.due = request.from + hours(24 * (3 + dice.below(12)));
    }
    if (dice.below(4) == 0) {
      one.earliest = request.from + hours(dice.below(60));
    }
    one.weight = 1.0 + dice.below(3);
    add_some_builds(dice, one);
    request.jobs.push_back(one);
  }
  if (dice.below(2) == 0) {
    request.resources.rack_places = 2 + dice.below(4);
  }
  if (dice.below(2) == 0) {
    request.resources.benches = 1 + dice.below(3);
  }
  if (dice.below(2) == 0) {
    request.resources.spray_places = 1;
  }
  request.resources.finishing_apart = dice.below(3) == 0;
  return shop;
}

inline std::string in_words(unsigned number, const DrawnShop& shop) {
  std::string text = fmt::format(
      "shop {}, from {}, horizon {}, confidence {:.3f}, racks {}, "
      "benches {}, spray {}, apart {}",
      number,
      show_utc(shop.request.from),
      show_utc(shop.request.horizon),
      shop.request.confidence,
      shop.request.resources.rack_places.value_or(-1),
      shop.request.resources.benches.value_or(-1),
      shop.request.resources.spray_places.value_or(-1),
      shop.request.resources.finishing_apart);
  for (const JobRequest& one : shop.request.jobs) {
    text += "\n" + one.name + (one.due ? " due " + show_utc(*one.due) : "");
    for (const PartRequest& part : one.parts) {
      text += fmt::format(", {} {} {:.2f} m2 faces {}",
                          part.name,
                          part.finish.schedule->name,
                          part.finish.area.square_metres(),
                          static_cast<int>(part.finish.faces));
    }
  }
  return text;
}

}  // namespace asked
