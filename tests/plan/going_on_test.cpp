#include <catch2/catch.hpp>

#include "plan/plan_changes.h"
#include "plan/plan_checker.h"
#include "plan/plan_logs.h"
#include "plan/plan_requests.h"
#include "plan/random_requests.h"

using namespace coatwright;
using namespace asked;

/// A plan that goes on from the log of its own first part must be its own second part.
namespace {

/// A step with its place, and what was known of it.
std::string in_words(const PlanStep& step) {
  return fmt::format("{} {} {} coat {} {} {} {}..{}",
                     name_of(step.kind),
                     step.face,
                     step.product,
                     step.coat,
                     step.grit,
                     step.method,
                     show_utc(step.start),
                     show_utc(step.end));
}

/// The steps that are still to be done, and when all is.
std::vector<std::string> rest_of(const Plan& plan, std::size_t from) {
  std::vector<std::string> rest;
  for (std::size_t i = from; i < plan.steps.size(); ++i) {
    if (!plan.steps[i].done) {
      rest.push_back(in_words(plan.steps[i]));
    }
  }
  return rest;
}

/// The next coat of some face can come too late for the one that lies there.
bool may_close(const PieceRequest& piece) {
  const own::OwnLog log(piece);
  for (const int face : {0, 1}) {
    const own::SeenCoat* top = log.top(face);
    if (top == nullptr || top->number >= static_cast<int>(log.scheduled.size())) {
      continue;
    }
    const auto& next = log.scheduled[static_cast<std::size_t>(top->number)]->product;
    const auto rule = book().pair(*top->product, **book().product(next));
    for (const RecoatInterval& interval : rule.value().intervals) {
      if (interval.closes) {
        return true;
      }
    }
  }
  return false;
}

void check_whole(const Plan& plan,
                 const PlanRequest& request,
                 const std::shared_ptr<own::Walk>& walk) {
  const auto faults = own::PlanChecker(plan, request, book(), walk).faults();
  for (const std::string& fault : faults) {
    UNSCOPED_INFO(fault);
  }
  CHECK(faults.empty());
}

/// How the cuts of some plans came out.
struct Cuts {
  int all = 0;
  int same = 0;
  int window = 0;     ///< Another moment, where a window that closes runs from the logged one.
  int unbounded = 0;  ///< They have no bound, though the whole plan has one.
  int order = 0;      ///< Another order of turning over, which ends sooner.
};

class Cutter {
 public:
  Cutter(const PlanRequest& request, const AirRecord& air)
      : request_(request), air_(air), walk_(std::make_shared<own::Walk>(air, request.from)) {
    const auto plan = make_plan(request, book(), air);
    if (!plan) {
      FAIL(plan.error().text());
    }
    plan_ = *plan;
  }

  [[nodiscard]] const Plan& plan() const { return plan_; }

  /// Cuts after each session, or after each of so many, the first of them last.
  void cut_all(Cuts& cuts, int every = 1, int first = 0) {
    int session = every - first;
    for (std::size_t i = 0; i < plan_.steps.size(); ++i) {
      if (ends_session(plan_, i) && session++ % every == 0) {
        cut(i, cuts);
      }
    }
  }

 private:
  void cut(std::size_t last, Cuts& cuts) {
    PlanRequest later = request_;
    later.from = plan_.steps[last].end;
    later.made_at = later.from;
    later.piece.log = log_of(plan_, last + 1);
    const auto plan = make_plan(later, book(), air_);
    REQUIRE(plan);
    INFO("cut after step " << plan_.steps[last].id << " " << in_words(plan_.steps[last]));
    check_whole(*plan, later, walk_);
    check_numbers(*plan, last);
    // A bound that comes out after the end is withheld, which is rare.
    cuts.unbounded += plan_.bound && !plan->bound ? 1 : 0;
    const auto was = rest_of(plan_, last + 1);
    const auto is = rest_of(*plan, 0);
    ++cuts.all;
    if (was == is) {
      ++cuts.same;
      check_same_end(*plan, later, was.empty());
      CHECK(changes_since(kept_plan_of(plan_), *plan).steps.empty());
      return;
    }
    if (may_close(later.piece)) {
      ++cuts.window;
    } else if (later.piece.faces == Faces::kTwo && plan->finish && plan_.finish) {
      ++cuts.order;
      CHECK(*plan->finish <= *plan_.finish);
    } else {
      CHECK(was == is);
    }
  }

  void check_same_end(const Plan& plan, const PlanRequest& later, bool nothing_left) const {
    CHECK(plan.complete == plan_.complete);
    if (nothing_left && plan.complete) {
      CHECK(*plan.finish == later.piece.log.back().at);
    } else {
      CHECK(plan.finish == plan_.finish);
    }
    REQUIRE(plan.milestones.size() == plan_.milestones.size());
    for (std::size_t i = 0; i < plan.milestones.size(); ++i) {
      CHECK(plan.milestones[i].stage == plan_.milestones[i].stage);
      // The clocks start at another moment, and round at others.
      CHECK(std::chrono::abs(plan.milestones[i].at - plan_.milestones[i].at) <= minutes(2));
    }
  }

  /// What is done has the numbers that it had while it was to be done.
  void check_numbers(const Plan& plan, std::size_t last) const {
    std::set<std::tuple<StepKind, std::string, int>> was;
    std::set<std::tuple<StepKind, std::string, int>> is;
    for (std::size_t i = 0; i <= last; ++i) {
      if (plan_.steps[i].kind == StepKind::kApply || plan_.steps[i].kind == StepKind::kAbrade) {
        was.emplace(plan_.steps[i].kind, plan_.steps[i].face, plan_.steps[i].coat);
      }
    }
    for (const PlanStep& step : plan.steps) {
      if (step.done && (step.kind == StepKind::kApply || step.kind == StepKind::kAbrade)) {
        is.emplace(step.kind, step.face, step.coat);
      }
    }
    CHECK(was == is);
  }

  const PlanRequest& request_;
  const AirRecord& air_;
  std::shared_ptr<own::Walk> walk_;
  Plan plan_;
};

std::string in_words(const Cuts& cuts) {
  return fmt::format(
      "{} cuts: {} the same, {} at a window, {} in another order, {} without a bound",
      cuts.all,
      cuts.same,
      cuts.window,
      cuts.order,
      cuts.unbounded);
}

const char* const kConstant = "0:00 20C 45%";
const char* const kSwinging = "6:00 15C 55%; 14:00 24C 40%; 22:00 17C 50%";

Cuts cuts_of(
    const Schedule& schedule, Faces faces, const std::string& day, int every = 1, int first = 0) {
  Asked one;
  one.faces = faces;
  one.square_metres = faces == Faces::kTwo ? 0.7 : 2.9;  // large ones are wiped in sections
  one.week = "Mon-Fri 8:00-17:00; Sat 9:00-13:00";
  one.given_up_after = hours(24 * 100);  // raw oil and rubbing out take weeks
  const Time start = at("2027-06-07T08:03:00-04:00");
  PlanRequest whole = request(one, start, start + hours(24 * 12), zone());
  whole.piece.schedule = &schedule;
  const AirRecord air = usual_air(day, zone());
  INFO(schedule.name << ", faces " << static_cast<int>(faces) << ", air " << day);
  Cuts cuts;
  Cutter cutter(whole, air);
  CHECK(cutter.plan().complete);
  cutter.cut_all(cuts, every, first);
  return cuts;
}

void add(const Cuts& some, Cuts& all) {
  all.all += some.all;
  all.same += some.same;
  all.window += some.window;
  all.order += some.order;
  all.unbounded += some.unbounded;
}

}  // namespace

TEST_CASE("A plan goes on from its own log as it was, whatever the schedule", "[plan]") {
  // The long check lays each in each way, and cuts after each session.
  constexpr int kEvery = 6;
  constexpr Faces kFaces[] = {Faces::kOne, Faces::kTwo, Faces::kOnPoints};
  Cuts all;
  int number = 0;
  for (const std::string& name : book().schedule_names()) {
    const char* day = number % 2 == 0 ? kConstant : kSwinging;
    const Faces faces = kFaces[number % 3];
    add(cuts_of(**book().schedule_for(name, {}), faces, day, kEvery, number % kEvery), all);
    ++number;
  }
  INFO(in_words(all));
  CHECK(all.all > 20);
  CHECK(all.same > all.all * 9 / 10);
  CHECK(all.unbounded <= all.all / 100);
}

TEST_CASE("A plan goes on from its own log as it was, after each session", "[plan][.long]") {
  Cuts all;
  for (const std::string& name : book().schedule_names()) {
    for (const Faces faces : {Faces::kOne, Faces::kTwo, Faces::kOnPoints}) {
      for (const char* day : {kConstant, kSwinging}) {
        add(cuts_of(**book().schedule_for(name, {}), faces, day), all);
      }
    }
  }
  INFO(in_words(all));
  CHECK(all.all > 300);
  CHECK(all.same > all.all * 19 / 20);
  CHECK(all.unbounded <= all.all / 100);
}

TEST_CASE("A plan with raised grain or sanding between coats goes on as it was", "[plan]") {
  ScheduleStep raising;
  raising.kind = ScheduleStepKind::kRaiseGrain;
  raising.grits = {"P220"};
  const std::vector<Schedule> schedules = {
      schedule_of({sanding({"P150", "P180"}),
                   raising,
                   coats("water-stain", Method::kWipe, 1),
                   coats("dewaxed-shellac", Method::kPad, 2)}),
      schedule_of({sanding({"P180"}), raising, coats("waterborne-clear", Method::kBrush, 2)}),
      schedule_of({coats("oil-modified-varnish", Method::kBrush, 1),
                   sanding({"P320"}),
                   coats("oil-modified-varnish", Method::kBrush, 2)})};
  Cuts all;
  for (const Schedule& schedule : schedules) {
    for (const Faces faces : {Faces::kOne, Faces::kTwo, Faces::kOnPoints}) {
      add(cuts_of(schedule, faces, kSwinging, 3, static_cast<int>(faces)), all);
    }
  }
  INFO(in_words(all));
  CHECK(all.all > 15);
  CHECK(all.same > all.all * 9 / 10);
  CHECK(all.unbounded <= all.all / 100);
}

namespace {

/// Plans by chance, cut now and then.
Cuts random_cuts(unsigned first, unsigned last, int every) {
  Cuts all;
  for (unsigned number = first; number <= last; ++number) {
    const Drawn drawn = draw(number);
    INFO(in_words(number, drawn));
    Cutter cutter(drawn.request, drawn.air);
    if (cutter.plan().complete) {
      cutter.cut_all(all, every);
    }
  }
  return all;
}

}  // namespace

TEST_CASE("Random plans go on from their own logs as they were", "[plan]") {
  const Cuts all = random_cuts(1001, 1006, 6);
  INFO(in_words(all));
  CHECK(all.all > 6);
  CHECK(all.same > all.all * 8 / 10);
  CHECK(all.unbounded <= all.all / 100);
}

TEST_CASE("Many random plans go on from their own logs as they were", "[plan][.long]") {
  const Cuts all = random_cuts(1101, 1200, 1);
  INFO(in_words(all));
  CHECK(all.all > 500);
  CHECK(all.same > all.all * 9 / 10);
  CHECK(all.unbounded <= all.all / 100);
}
