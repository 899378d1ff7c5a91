#include <catch2/catch.hpp>

#include "plan/plan_checker.h"
#include "plan/plan_logs.h"
#include "plan/plan_requests.h"

using namespace coatwright;
using namespace asked;
using Catch::Matchers::Contains;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

/// Logs by hand, each with what must come of it. At 23 C and 50 % an hour of drying is an hour, and
/// at a confidence of 0.9 a wait takes the high end of its range in the recipe.
namespace {

const Time kStart = at("2027-06-07T08:00:00-04:00");

struct Case {
  explicit Case(Schedule of, Faces on = Faces::kOne) : schedule(std::move(of)), faces(on) {}

  Schedule schedule;
  Faces faces;
  std::vector<LoggedWork> log;
  Time from = kStart;
  std::string week = "Mon-Sun 0:00-24:00";
  Time by = kStart + hours(24 * 30);
};

Plan plan_of(const Case& one) {
  Asked asked;
  asked.faces = one.faces;
  asked.week = one.week;
  PlanRequest whole = request(asked, kStart, one.by, zone());
  whole.from = one.from;
  whole.made_at = one.from;
  whole.piece.schedule = &one.schedule;
  whole.piece.log = one.log;
  // Entries besides the usual day, as a shop with a logger has them.
  const AirRecord air({forecast(kStart - hours(1), 23, 50), forecast(kStart, 23, 50)},
                      *UsualDay::parse("0:00 23C 50%"),
                      zone());
  const auto plan = make_plan(whole, book(), air);
  if (!plan) {
    FAIL(plan.error().text());
  }
  const auto faults = own::PlanChecker(*plan, whole, book(), air).faults();
  for (const std::string& fault : faults) {
    UNSCOPED_INFO(fault);
  }
  CHECK(faults.empty());
  return *plan;
}

std::vector<const PlanStep*> left(const Plan& plan) {
  std::vector<const PlanStep*> steps;
  for (const PlanStep& step : plan.steps) {
    if (!step.done && step.kind != StepKind::kWait) {
      steps.push_back(&step);
    }
  }
  return steps;
}

/// "flip front", "apply back 2" ... of the steps left, without what goes along with a coat.
std::vector<std::string> deeds(const Plan& plan) {
  std::vector<std::string> words;
  for (const PlanStep* step : left(plan)) {
    const std::string face = step->face.empty() ? "" : " " + step->face;
    const std::string grit = step->grit.empty() ? "" : " " + step->grit;
    const std::string name(name_of(step->kind));
    switch (step->kind) {
      case StepKind::kApply:
        words.push_back(name + face + fmt::format(" {}", step->coat));
        break;
      case StepKind::kSand:
      case StepKind::kAbrade:
      case StepKind::kRaiseGrain:
      case StepKind::kSample:
      case StepKind::kFlip:
        words.push_back(name + face + grit);
        break;
      default:
        break;
    }
  }
  return words;
}
using Deeds = std::vector<std::string>;

const PlanStep& apply_of(const Plan& plan, int coat) {
  for (const PlanStep* step : left(plan)) {
    if (step->kind == StepKind::kApply && step->coat == coat) {
      return *step;
    }
  }
  FAIL("the coat is not planned");
  return plan.steps.front();
}

std::string log_warnings(const Plan& plan) {
  std::string text;
  for (const PlanWarning& warning : plan.warnings) {
    text += warning.code == "log" ? warning.text + "\n" : "";
  }
  return text;
}

std::vector<std::string> products_to_buy(const Plan& plan) {
  std::vector<std::string> names;
  for (const PlannedQuantity& quantity : plan.quantities) {
    names.push_back(quantity.product);
  }
  return names;
}

/// A wiped coat with all that belongs to it: on, off after 10 minutes, rags.
void wiped_coat(const std::string& product, Time time, std::vector<LoggedWork>& log) {
  log.push_back(coated(product, time));
  log.push_back(done(StepKind::kWipe, time + minutes(10)));
  log.push_back(done(StepKind::kRags, time + minutes(12)));
}

LoggedWork left_out(LoggedWork entry) {
  entry.left_out = true;
  entry.product = nullptr;
  return entry;
}

bool is_near(Time a, Time b) {
  return std::chrono::abs(a - b) <= minutes(1);
}

Schedule stain_and_lacquer() {
  return **book().schedule("stain-and-lacquer");
}
Schedule varnish() {
  return schedule_of({coats("oil-modified-varnish", Method::kBrush, 3)});
}
Schedule stain_first() {
  return schedule_of({coats("oil-wiping-stain", Method::kWipe, 1),
                      coats("nitrocellulose-lacquer-spray", Method::kSpray, 1)});
}

}  // namespace

// EVIDENCE: recipes/products/boiled-linseed-oil.toml, recoat after 24 to 72 h. That a coat shut in
// counts from when the one beneath was ready is judgement.
TEST_CASE("A coat that went on too early dries from when the one beneath was ready", "[plan]") {
  Case one{schedule_of({coats("boiled-linseed-oil", Method::kWipe, 3)})};
  wiped_coat("boiled-linseed-oil", kStart, one.log);
  const Time off = kStart + minutes(10);
  const auto third_opens = [&](hours second) {
    Case now = one;
    wiped_coat("boiled-linseed-oil", kStart + second, now.log);
    now.from = kStart + second + hours(1);
    const Plan plan = plan_of(now);
    CHECK(deeds(plan) == Deeds{"apply 3"});
    const bool early = second < hours(72);
    CHECK((log_warnings(plan).find("went on before") != std::string::npos) == early);
    return apply_of(plan, 3).after.at(0).opens_at;
  };
  CHECK(is_near(third_opens(hours(24)), off + hours(72 + 72)));
  CHECK(is_near(third_opens(hours(60)), off + hours(72 + 72)));
  CHECK(is_near(third_opens(hours(80)), off + hours(80 + 72)));
}

TEST_CASE("A coat that is held back stays so while its wiping is still open", "[plan]") {
  Case one{schedule_of({coats("boiled-linseed-oil", Method::kWipe, 3)})};
  wiped_coat("boiled-linseed-oil", kStart, one.log);
  one.log.push_back(coated("boiled-linseed-oil", kStart + hours(24)));
  one.from = kStart + hours(24) + minutes(5);
  const Plan plan = plan_of(one);
  CHECK_THAT(log_warnings(plan), Contains("went on before"));
  CHECK(is_near(apply_of(plan, 3).after.at(0).since, kStart + minutes(10) + hours(72)));
}

TEST_CASE("A coat that the log passed over is taken as left out, with a warning", "[plan]") {
  Case one{stain_and_lacquer()};
  one.log = {coated("nitrocellulose-sanding-sealer", kStart)};
  one.from = kStart + hours(1);
  const Plan plan = plan_of(one);
  CHECK_THAT(log_warnings(plan), Contains("No coat of Oil wiping stain is logged"));
  CHECK(plan.steps.front().coat == 2);
  CHECK(deeds(plan) == Deeds{"abrade P320", "apply 3", "apply 4", "apply 5"});
  CHECK(products_to_buy(plan) == Deeds{"nitrocellulose-lacquer-spray"});
}

TEST_CASE("The plan goes on over a coat that the schedule does not have", "[plan]") {
  Case one{stain_and_lacquer()};
  wiped_coat("oil-wiping-stain", kStart, one.log);
  one.log.push_back(coated("dewaxed-shellac", kStart + hours(30)));
  one.from = kStart + hours(31);
  const Plan plan = plan_of(one);
  CHECK_THAT(log_warnings(plan), Contains("Dewaxed shellac") && Contains("no more coat of it"));
  CHECK(plan.steps.at(3).coat == 0);
  CHECK(apply_of(plan, 2).after.at(0).product == "Dewaxed shellac");
  CHECK(deeds(plan) == Deeds{"apply 2", "abrade P320", "apply 3", "apply 4", "apply 5"});
}

TEST_CASE("A coat left out is planned no more; all else is", "[plan]") {
  Case one{stain_and_lacquer()};
  one.log = {left_out(coated("oil-wiping-stain", kStart))};
  one.from = kStart + hours(1);
  const Plan plan = plan_of(one);
  CHECK(log_warnings(plan).empty());
  CHECK(deeds(plan) == Deeds{"sample",
                             "sand P120",
                             "sand P150",
                             "sand P180",
                             "apply 2",
                             "abrade P320",
                             "apply 3",
                             "apply 4",
                             "apply 5"});
  CHECK(apply_of(plan, 2).after.empty());
  CHECK(products_to_buy(plan).front() == "nitrocellulose-sanding-sealer");
  CHECK(of_kind(plan, StepKind::kApply).size() == 4);
}

TEST_CASE("A finer grit has the coarser ones behind it", "[plan]") {
  Case one{stain_and_lacquer()};
  one.log = {sanded("P180", kStart)};
  one.from = kStart + minutes(10);
  CHECK(deeds(plan_of(one)).at(1) == "apply 1");
  one.log = {sanded("P150", kStart)};
  CHECK(deeds(plan_of(one)).at(1) == "sand P180");
  one.log = {left_out(sanded("P150", kStart))};
  CHECK(deeds(plan_of(one)).at(1) == "sand P120");
  CHECK(deeds(plan_of(one)).at(2) == "sand P180");
}

// EVIDENCE: trade_finishing_web, wetted wood dries overnight: 4 to 10 h
TEST_CASE("Grain that was raised is cut back when it has dried from the logged moment", "[plan]") {
  ScheduleStep raising;
  raising.kind = ScheduleStepKind::kRaiseGrain;
  raising.grits = {"P220"};
  Case one{schedule_of(
      {sanding({"P150", "P180"}), raising, coats("waterborne-clear", Method::kBrush, 1)})};
  one.log = {done(StepKind::kSample, kStart - hours(1)), done(StepKind::kRaiseGrain, kStart)};
  for (const hours later : {hours(1), hours(20)}) {
    one.from = kStart + later;
    const Plan plan = plan_of(one);
    REQUIRE(deeds(plan) == Deeds{"sand P220", "apply 1"});
    const PlanStep& cut = *left(plan).front();
    REQUIRE(cut.after.size() == 1);
    CHECK(cut.after.front().since == kStart);
    CHECK(cut.after.front().step == 2);
    CHECK(is_near(cut.after.front().opens_at, kStart + hours(10)));
    CHECK(cut.start >= std::max(one.from, kStart + hours(10)));
  }
  one.log.push_back(sanded("P220", kStart + hours(11)));
  CHECK(deeds(plan_of(one)) == Deeds{"apply 1"});
}

TEST_CASE("Wetting that the schedule does not ask for holds no sanding up", "[plan]") {
  Case one{stain_and_lacquer()};
  one.log = {done(StepKind::kRaiseGrain, kStart), sanded("P180", kStart + hours(12))};
  one.from = kStart + hours(13);
  CHECK(deeds(plan_of(one)).at(1) == "apply 1");
}

// EVIDENCE: recipes/products/oil-modified-varnish.toml, as it is until 12 to 24 h, abraded from 6
// to 24 h without an end.
TEST_CASE("A face that was abraded is not abraded again, and takes the abraded window", "[plan]") {
  Case one{varnish()};
  one.log = {coated("oil-modified-varnish", kStart)};
  one.from = kStart + hours(72);
  CHECK(deeds(plan_of(one)).front() == "abrade P320");
  for (const StepKind kind : {StepKind::kAbrade, StepKind::kSand}) {
    Case abraded = one;
    abraded.log.push_back(done(kind, kStart + hours(71)));
    const Plan plan = plan_of(abraded);
    CHECK(deeds(plan).front() == "apply 2");
    const Wait& wait = apply_of(plan, 2).after.at(0);
    CHECK(wait.condition == "abrade");
    CHECK_FALSE(wait.closes_at);
    CHECK(is_near(wait.opens_at, kStart + hours(24)));
    CHECK(plan.steps.at(1).coat == (kind == StepKind::kAbrade ? 2 : 0));
  }
  // The next coat takes the tooth away again.
  one.log.push_back(done(StepKind::kAbrade, kStart + hours(71)));
  one.log.push_back(coated("oil-modified-varnish", kStart + hours(72)));
  one.from = kStart + hours(24 * 6);
  CHECK(deeds(plan_of(one)) == Deeds{"abrade P320", "apply 3"});
}

TEST_CASE("The dust of a logged sanding settles before the coat", "[plan]") {
  Case one{varnish()};
  one.log = {sanded("P180", kStart)};
  one.from = kStart;
  CHECK(apply_of(plan_of(one), 1).start >= kStart + minutes(15));
}

TEST_CASE("Sanding that the schedule has between coats is behind when it is logged", "[plan]") {
  Case one{schedule_of({sanding({"P180"}),
                        coats("oil-modified-varnish", Method::kBrush, 1),
                        sanding({"P180"}),
                        coats("oil-modified-varnish", Method::kBrush, 1)})};
  one.log = {sanded("P180", kStart)};
  one.from = kStart + hours(1);
  CHECK(deeds(plan_of(one)) == Deeds{"apply 1", "sand P180", "apply 2"});
  one.log.push_back(sanded("P180", kStart + minutes(5)));  // once more on bare wood
  CHECK(deeds(plan_of(one)) == Deeds{"apply 1", "sand P180", "apply 2"});
  one.log.push_back(coated("oil-modified-varnish", kStart + hours(1)));
  one.log.push_back(sanded("P180", kStart + hours(30)));
  one.from = kStart + hours(31);
  CHECK(deeds(plan_of(one)) == Deeds{"apply 2"});
}

TEST_CASE("A piece with its front coated is turned over for its back", "[plan]") {
  Case one{schedule_of({coats("dewaxed-shellac", Method::kPad, 2)}), Faces::kTwo};
  one.log = {coated("dewaxed-shellac", kStart, {1})};
  one.from = kStart + minutes(10);
  CHECK(deeds(plan_of(one)) ==
        Deeds{"flip back", "apply back 1", "apply back 2", "flip front", "apply front 2"});
  one.log.push_back(done(StepKind::kFlip, kStart + hours(5), {0, 1}));
  one.from = kStart + hours(5);
  CHECK(deeds(plan_of(one)) ==
        Deeds{"apply back 1", "apply back 2", "flip front", "apply front 2"});
}

TEST_CASE("Faces with unlike logs come to the same number of coats", "[plan]") {
  Case one{varnish(), Faces::kTwo};
  one.log = {coated("oil-modified-varnish", kStart, {0}),
             coated("oil-modified-varnish", kStart + hours(26), {0})};
  one.from = kStart + hours(27);
  const Plan plan = plan_of(one);
  CHECK(of_kind(plan, StepKind::kApply).size() == 6);
  REQUIRE(plan.quantities.size() == 1);
  CHECK_THAT(plan.quantities.front().basis,
             Contains("2 coats on 1.00 m2") && Contains("1 coat on 2.00 m2"));
}

// EVIDENCE: recipes/products/oil-wiping-stain.toml, wiped off 5 to 15 minutes after it went on
TEST_CASE("Wiping that is still open comes first, whatever the hour, and the rags after it",
          "[plan]") {
  Case one{stain_first()};
  one.week = "Mon-Fri 8:00-17:00";
  const Time evening = at("2027-06-07T21:00:00-04:00");
  one.log = {coated("oil-wiping-stain", evening)};
  const auto check = [&](Time from, Time starts) {
    one.from = from;
    const Plan plan = plan_of(one);
    const auto steps = left(plan);
    REQUIRE(steps.size() > 3);
    CHECK(steps[0]->kind == StepKind::kWipe);
    CHECK(steps[0]->coat == 1);
    CHECK(steps[0]->start == starts);
    CHECK(steps[1]->kind == StepKind::kRags);
    CHECK(steps[1]->start == steps[0]->end);
    CHECK(steps[2]->start >= at("2027-06-08T08:00:00-04:00"));
    CHECK(log_warnings(plan).empty());
    CHECK(apply_of(plan, 2).after.at(0).since == steps[0]->end);
  };
  check(evening + minutes(2), evening + minutes(5));
  check(evening + minutes(8), evening + minutes(8));
  // Rags that were seen to before the wiping are not those of the wiping.
  one.log.push_back(done(StepKind::kRags, evening + minutes(1)));
  check(evening + minutes(2), evening + minutes(5));
}

TEST_CASE("Wiping whose window has closed is taken as done, with a warning", "[plan]") {
  Case one{stain_first()};
  one.log = {coated("oil-wiping-stain", kStart)};
  one.from = kStart + minutes(15);
  const Plan plan = plan_of(one);
  CHECK_THAT(log_warnings(plan), Contains("No wiping of the Oil wiping stain is logged"));
  CHECK(of_kind(plan, StepKind::kWipe).empty());
  CHECK(left(plan).front()->kind == StepKind::kRags);
  CHECK(apply_of(plan, 2).after.at(0).since == kStart + minutes(15));
}

TEST_CASE("Rags come first in every plan until they are logged as seen to", "[plan]") {
  Case one{stain_first()};
  one.week = "Mon-Fri 8:00-17:00";
  one.log = {coated("oil-wiping-stain", kStart), done(StepKind::kWipe, kStart + minutes(10))};
  for (const minutes later : {minutes(11), minutes(60 * 13), minutes(60 * 24 * 5)}) {
    one.from = kStart + later;
    const auto plan = plan_of(one);
    CHECK(left(plan).front()->kind == StepKind::kRags);
    CHECK(left(plan).front()->start == one.from);
    CHECK_FALSE(left(plan).front()->cautions.empty());
  }
  // Left out, they still lie there.
  one.log.push_back(left_out(done(StepKind::kRags, kStart + minutes(12))));
  CHECK(left(plan_of(one)).front()->kind == StepKind::kRags);
  one.log.push_back(done(StepKind::kRags, kStart + minutes(12)));
  CHECK(of_kind(plan_of(one), StepKind::kRags).size() == 1);  // the one that is done
  // Wiping once more, as weeping oil needs it, makes new ones.
  one.log.push_back(done(StepKind::kWipe, kStart + minutes(40)));
  CHECK(left(plan_of(one)).front()->kind == StepKind::kRags);
}

TEST_CASE("Rags that are left when all coats are on are still a step", "[plan]") {
  Case one{schedule_of({coats("hardwax-oil", Method::kPad, 1)})};
  one.log = {coated("hardwax-oil", kStart), done(StepKind::kWipe, kStart + minutes(10))};
  one.from = kStart + hours(30);
  const Plan plan = plan_of(one);
  REQUIRE(left(plan).size() == 1);
  CHECK(left(plan).front()->kind == StepKind::kRags);
  CHECK(*plan.finish == left(plan).front()->end);
}

TEST_CASE("A piece that is done ends with its last entry", "[plan]") {
  Case one{schedule_of({coats("hardwax-oil", Method::kPad, 2)})};
  wiped_coat("hardwax-oil", kStart, one.log);
  const Time end = kStart + hours(30);
  one.log.push_back(coated("hardwax-oil", end - minutes(12)));
  one.log.push_back(done(StepKind::kWipe, end - minutes(2)));
  one.log.push_back(done(StepKind::kRags, end));
  one.from = end + hours(100);
  for (const bool in_time : {true, false}) {
    one.by = in_time ? end : end - hours(1);
    const Plan plan = plan_of(one);
    CHECK(plan.complete);
    CHECK(left(plan).empty());
    CHECK(*plan.finish == end);
    CHECK(plan.bound == plan.finish);
    CHECK(plan.fits == in_time);
    CHECK(plan.chance == Approx(in_time ? 1.0 : 0.0).margin(0.01));
    CHECK(plan.pieces.front().late == (in_time ? hours(0) : hours(1)));
    CHECK(plan.quantities.empty());
    CHECK(plan.milestones.size() == 5);
  }
  // What was left out at last does not move the end.
  one.log.resize(3);
  one.log.push_back(left_out(coated("hardwax-oil", end)));
  const Plan plan = plan_of(one);
  CHECK(left(plan).empty());
  CHECK(*plan.finish == kStart + minutes(12));
}

TEST_CASE("Rags seen to once are seen to for both faces, in the bound too", "[plan]") {
  Case one(schedule_of({coats("hardwax-oil", Method::kPad, 1)}), Faces::kTwo);
  for (const int face : {0, 1}) {
    const Time on = kStart + hours(30 * face);
    one.log.push_back(coated("hardwax-oil", on, {face}));
    one.log.push_back(done(StepKind::kWipe, on + minutes(10), {face}));
  }
  one.log.push_back(done(StepKind::kRags, kStart + hours(31), {1}));
  one.from = kStart + hours(40);
  const Plan plan = plan_of(one);
  CHECK(*plan.finish == kStart + hours(31));
  CHECK(plan.bound == plan.finish);
}

TEST_CASE("Nothing is planned before what was done, even from an earlier start", "[plan]") {
  Case one{stain_and_lacquer()};
  one.log = {sanded("P120", kStart + hours(3))};
  one.from = kStart;
  const Plan plan = plan_of(one);
  CHECK(left(plan).front()->start >= kStart + hours(3));
}

TEST_CASE("A bound is stated, and never after the end, whatever was done", "[plan]") {
  Case one{stain_and_lacquer(), Faces::kTwo};
  one.log = {sanded("P180", kStart, {0, 1}),
             coated("oil-wiping-stain", kStart + hours(1), {0}),
             done(StepKind::kWipe, kStart + hours(1) + minutes(8), {0})};
  for (const minutes later : {minutes(70), minutes(60 * 12), minutes(60 * 24 * 9)}) {
    one.from = kStart + later;
    const Plan plan = plan_of(one);
    REQUIRE(plan.bound);
    CHECK(*plan.bound <= *plan.finish);
    CHECK(*plan.bound > one.from);
  }
}
