#pragma once

#include "plan/plan_checker.h"

/// The third part of the checker: mixes, washing, rubbing out, the order of steps, and what must be
/// begun long before.
namespace own {

inline const PlanStep* PlanChecker::step_before(const PlanStep& step) const {
  return &step == plan_.steps.data() ? nullptr : &step - 1;
}

/// Each part that is put on comes out of a batch of its own, after it stood and while it lasts.
inline void PlanChecker::check_mixing() {
  std::vector<const PlanStep*> batches;
  for (const PlanStep& step : plan_.steps) {
    if (step.done || step.kind != StepKind::kApply) {
      continue;
    }
    const Product& product = **book_.product(step.product);
    if (!product.mix) {
      continue;
    }
    const PlanStep* mixing = step_before(step);
    if (mixing == nullptr || mixing->kind != StepKind::kMix || mixing->product != step.product ||
        mixing->coat != step.coat || mixing->done) {
      step_fault(step, "nothing was mixed right before it");
      continue;
    }
    const auto stood = seconds(std::llround(product.mix->induction.hours() * 3600.0));
    if (step.start < mixing->end + stood) {
      step_fault(step, "the mix has not stood long enough");
    }
    if (product.mix->pot_life) {
      // EVIDENCE: common-practice: the cautious end of the label's range, sooner in warm air
      const double hours = product.mix->pot_life->low().hours();
      const Time label = mixing->end + seconds(std::llround(hours * 3600.0));
      const Time dead =
          walk_.reached(product.mix->pot_life_law, std::nullopt, mixing->end, hours, label)
              .value_or(label);
      if (step.end > dead) {
        step_fault(step,
                   fmt::format("mixed at {}, the batch is dead at {}, and used until {}",
                               show_utc(mixing->end),
                               show_utc(dead),
                               show_utc(step.end)));
      }
    }
    const bool same_coat =
        !batches.empty() && batches.back()->coat == step.coat && batches.back()->face == step.face;
    if (!same_coat && !batches.empty()) {
      check_batches(batches);
      batches.clear();
    }
    batches.push_back(&step);
  }
  if (!batches.empty()) {
    check_batches(batches);
  }
}

/// The batches together are put on for as long as the whole area takes; each is rounded up.
inline void PlanChecker::check_batches(const std::vector<const PlanStep*>& batches) {
  const PlanStep& first = *batches.front();
  const Product& product = **book_.product(first.product);
  std::string name = first.method;
  if (first.method == "brush") {
    name = product.oxidises ? "brush" : "brush-waterborne";
  }
  const WorkingTime& time = (**book_.working_times()).find(name)->second;
  const double square_metres =
      request_.piece.area.square_metres() * static_cast<double>(faces_of(first).size());
  const double per_square_metre =
      quantile(time.low_minutes_per_m2, time.high_minutes_per_m2, request_.confidence);
  const auto count = static_cast<double>(batches.size());
  const double whole = time.fixed_minutes * count + per_square_metre * square_metres;
  double spent = 0.0;
  for (const PlanStep* batch : batches) {
    spent += static_cast<double>((batch->end - batch->start).count()) / 60.0;
  }
  if (spent < whole - 1e-6 * whole - 1e-6 || spent > whole + count + 1e-6) {
    step_fault(first, fmt::format("{} batches take {} min, not {}", count, spent, whole));
  }
}

/// Where the schedule washes the wood, it is washed right before the first stroke of that coat.
inline void PlanChecker::check_washing() {
  bool asked = false;
  int number = 0;
  std::set<int> washed;  // numbers of coats
  for (const ScheduleStep& step : request_.piece.schedule->steps) {
    if (step.kind == ScheduleStepKind::kCoat) {
      if (asked) {
        washed.insert(number + 1);
      }
      asked = false;
      number += step.coats;
    }
    asked = asked || step.kind == ScheduleStepKind::kWash;
  }
  for (const SeenCoat& coat : coats_) {
    if (coat.logged) {
      continue;
    }
    const PlanStep* wash = nullptr;
    for (const PlanStep& step : plan_.steps) {
      const bool before = step.start < coat.begun &&
                          std::chrono::abs(coat.begun - step.start) < std::chrono::hours(8);
      const bool sands = step.kind == StepKind::kSand || step.kind == StepKind::kAbrade;
      if (before && !step.done && step.kind == StepKind::kWash && faces_of(step) == coat.faces) {
        wash = &step;
      } else if (before && !step.done && (sands || step.kind == StepKind::kApply)) {
        wash = nullptr;
      }
    }
    if (washed.contains(coat.number) != (wash != nullptr)) {
      fault("coat {}: the wood is {} just before it",
            coat.number,
            wash == nullptr ? "not washed" : "washed");
    }
    if (wash != nullptr && coat.begun < wash->end + minutes(15)) {
      step_fault(*wash, "the solvent has not left the wood for 15 minutes");
    }
    if (wash != nullptr && coat.begun > wash->end + minutes(60)) {
      step_fault(*wash, "the oil comes back while the coat is waited for");
    }
  }
}

/// Rubbing out: when all coats are on and have stood for the wait, each grit in turn, polish last.
inline void PlanChecker::check_rub_out() {
  const ScheduleStep* asked = nullptr;
  std::size_t coats_before = 0;
  for (const ScheduleStep& step : request_.piece.schedule->steps) {
    if (step.kind == ScheduleStepKind::kRubOut) {
      asked = &step;
      break;
    }
    coats_before += step.kind == ScheduleStepKind::kCoat ? static_cast<std::size_t>(step.coats) : 0;
  }
  std::vector<std::string> order = asked == nullptr ? std::vector<std::string>() : asked->grits;
  order.emplace_back();
  std::set<std::pair<int, std::string>> rubbed = log_.rubbed;
  std::size_t place = 0;
  for (const PlanStep& step : plan_.steps) {
    if (step.done || step.kind != StepKind::kRubOut) {
      continue;
    }
    if (asked == nullptr) {
      step_fault(step, "the schedule rubs nothing out");
      return;
    }
    const auto found = std::find(order.begin(), order.end(), step.grit) - order.begin();
    if (static_cast<std::size_t>(found) < place || found == std::ssize(order)) {
      step_fault(step, "its grit is out of order");
    }
    place = static_cast<std::size_t>(found);
    for (const int face : faces_of(step)) {
      if (!rubbed.emplace(face, step.grit).second) {
        step_fault(step, "it was done already");
      }
      const SeenCoat* coat = top(face, step.start);
      if (coat == nullptr || coat->number == 0 || coat->came_in) {
        continue;
      }
      if (coat->number != static_cast<int>(coats_before) && !coat->logged) {
        step_fault(step, "not all coats are on");
      }
      if (!asked->waits) {
        continue;
      }
      const RateLaw law = coat->product->stage(Stage::kRecoat)->timing.phases.back().law;
      const double exponent =
          coat->product->stage(Stage::kRecoat)->timing.phases.back().film_exponent;
      const double hours =
          quantile(asked->waits->low().hours(), asked->waits->high().hours(), request_.confidence) *
          std::pow(coat->film_ratio, exponent);
      const double earned = walk_.earned(law, coat->gate, coat->ended, step.start);
      if (earned < hours - std::max(kHoursSlack, 1e-3 * hours)) {
        step_fault(step, fmt::format("the film has stood for {} h of {}", earned, hours));
      }
    }
  }
  if (asked != nullptr && plan_.complete && log_.rubbed.empty()) {
    const auto wanted = order.size() * (request_.piece.faces == Faces::kOne ? 1 : 2);
    if (rubbed.size() != wanted) {
      fault("{} of {} rubbings are planned", rubbed.size(), wanted);
    }
  }
}

/// Grits in the schedule's order, none left out where nothing was done; a scheduled abrading before
/// its coat, with its grit.
inline void PlanChecker::check_order() {
  std::vector<std::string> asked;
  std::map<int, std::string> abraded_before;  // by the number of the coat
  std::string abrading;
  int number = 0;
  for (const ScheduleStep& step : request_.piece.schedule->steps) {
    if (step.kind == ScheduleStepKind::kSand || step.kind == ScheduleStepKind::kRaiseGrain) {
      asked.insert(asked.end(), step.grits.begin(), step.grits.end());
    } else if (step.kind == ScheduleStepKind::kAbrade) {
      abrading = step.grits.front();
    } else if (step.kind == ScheduleStepKind::kCoat) {
      if (!abrading.empty()) {
        abraded_before[number + 1] = abrading;
      }
      abrading.clear();
      number += step.coats;
    }
  }
  std::vector<std::string> planned;
  for (const PlanStep& step : plan_.steps) {
    if (!step.done && step.kind == StepKind::kSand) {
      planned.push_back(step.grit);
    }
    const auto scheduled = abraded_before.find(step.coat);
    if (!step.done && step.kind == StepKind::kAbrade && scheduled != abraded_before.end() &&
        scheduled->second != step.grit) {
      step_fault(step, "the schedule abrades with " + scheduled->second);
    }
  }
  auto next = asked.begin();
  for (const std::string& grit : planned) {
    next = std::find(next, asked.end(), grit);
    if (next == asked.end()) {
      fault("{} is sanded out of order", grit);
      break;
    }
    ++next;
  }
  if (request_.piece.log.empty() && plan_.complete && planned != asked) {
    fault("{} grits are sanded, the schedule has {}", planned.size(), asked.size());
  }
  for (const SeenCoat& coat : coats_) {
    if (coat.logged || !abraded_before.contains(coat.number)) {
      continue;
    }
    const bool coated = std::any_of(coat.faces.begin(), coat.faces.end(), [&](int face) {
      return top(face, coat.begun) != nullptr;
    });
    if (coated && !coat.abraded_first) {
      fault("coat {} goes on without the abrading that the schedule has before it", coat.number);
    }
  }
}

/// When work that must end before a coat may begin at the latest: while somebody is there, or
/// before the plan.
inline Time PlanChecker::latest_beginning(const Preparation& needed, Time coat) const {
  const auto work = seconds(std::llround(needed.minutes * 60.0));
  const Time end = coat - seconds(std::llround(needed.lead.high().hours() * 3600.0));
  std::optional<Time> latest;
  for (const Interval& opening : request_.hours) {
    const Time begins = std::min(end, opening.end) - work;
    if (begins >= opening.start) {
      latest = std::max(latest.value_or(begins), begins);
    }
  }
  return latest.value_or(end - work);
}

inline void PlanChecker::check_preparations() {
  std::map<std::string, Time> first_coats;
  std::set<std::string> opened;  // what was put on before the plan is at hand
  for (const PlanStep& step : plan_.steps) {
    if (step.kind == StepKind::kApply && step.done) {
      opened.insert(step.product);
    } else if (step.kind == StepKind::kApply) {
      first_coats.emplace(step.product, step.start);
    }
  }
  std::size_t wanted = 0;
  for (const auto& [name, coat] : first_coats) {
    if (opened.contains(name)) {
      continue;
    }
    for (const Preparation& needed : (**book_.product(name)).preparations) {
      ++wanted;
      const auto found = std::find_if(
          plan_.preparations.begin(), plan_.preparations.end(), [&](const PlanPreparation& one) {
            return one.text == needed.text && one.when == needed.when &&
                   std::find(one.products.begin(), one.products.end(), name) != one.products.end();
          });
      if (found == plan_.preparations.end()) {
        fault("{}: nothing is said of '{}'", name, needed.text);
      } else if (const Time latest = latest_beginning(needed, coat);
                 found->begin_by > latest ||
                 (found->products.size() == 1 && found->begin_by != latest)) {
        fault("{}: '{}' by {}, not {}",
              name,
              needed.text,
              show_utc(found->begin_by),
              show_utc(latest));
      }
    }
  }
  std::size_t said = 0;
  for (const PlanPreparation& one : plan_.preparations) {
    said += one.products.size();
  }
  if (said != wanted) {
    fault("{} preparations are said, {} wanted", said, wanted);
  }
}

}  // namespace own
