#include "report/calendar.h"

#include <algorithm>
#include <set>

#include "page_checks.h"
#include "report/plan_words.h"

using namespace coatwright;
using sample::times_in;
using sample::unwrapped;

namespace {

std::string calendar_of(const Plan& plan, UnitSystem units = UnitSystem::kMetric) {
  return show_calendar(plan, sample::zone(), units);
}

bool holds(const std::string& page, const std::string& words) {
  return unwrapped(page).find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("Every calendar fits 80 columns and shows no broken figure", "[report]") {
  for (const auto& [name, plan] : sample::all_plans()) {
    for (const UnitSystem units : {UnitSystem::kMetric, UnitSystem::kUs}) {
      INFO(name);
      sample::check_page(calendar_of(plan, units));
    }
  }
}

TEST_CASE("A calendar of ASCII texts is plain ASCII", "[report]") {
  const std::string page = calendar_of(sample::plan());
  CHECK(std::all_of(
      page.begin(), page.end(), [](char c) { return c == '\n' || (c >= ' ' && c <= '~'); }));
}

TEST_CASE("The head says what, when and how sure", "[report]") {
  const std::string page = calendar_of(sample::plan());
  CHECK(page.starts_with("Sideboard\n=========\n"));
  // That 7 March 2027 is a Sunday was looked up with GNU date.
  CHECK(holds(page, "Ends Sun 7 March 2027 19:05, 55 min before the date."));
  CHECK(holds(page, "Wood black-walnut"));
  CHECK(holds(page, "Schedule stain-and-lacquer"));
  CHECK(holds(page, "1.90 m2 a face, 2 faces, one after the other"));
  CHECK(holds(page,
              "Fri 5 March 16:00-20:00; Sat 6 March 09:00-12:00, 13:00-18:00; "
              "Sun 7 March 09:00-20:00"));
  CHECK(holds(page, "87 % that it ends by its date; each wait is taken at 90 % confidence."));
  CHECK(holds(page, "No plan can end before Sun 7 March 2027 18:40; this one ends 25 min"));
}

TEST_CASE("A plan that does not fit says by how much and what holds it up", "[report]") {
  const std::string page = calendar_of(sample::late_plan());
  CHECK(holds(page, "Does not fit: ends 4 d 3 h after the date, Thu 11 March 2027 23:00."));
  CHECK(holds(page, "under 1 % that it ends by its date"));
  CHECK(holds(page, "What holds it up"));
  CHECK(holds(page, "- oil wiping stain until recoat (23 h 29 min)"));
  CHECK(holds(page, "- the shop is closed (9 h)"));
}

TEST_CASE("A plan that fits names its biggest wait alone", "[report]") {
  const std::string page = calendar_of(sample::plan());
  CHECK(holds(page, "The biggest wait"));
  CHECK(holds(page, "- oil wiping stain until recoat (23 h 29 min)"));
  CHECK_FALSE(holds(page, "the shop is closed"));
}

TEST_CASE("An incomplete plan claims neither an end nor a chance", "[report]") {
  const std::string page = calendar_of(sample::incomplete_plan());
  CHECK(holds(page, "Does not fit: not every step has its place."));
  CHECK_FALSE(holds(page, "Ends Sun"));
  CHECK_FALSE(holds(page, "that it ends by its date"));
  CHECK(holds(page, "the shop is never above 16 C"));
  CHECK_FALSE(holds(page, "(0 min)"));
}

TEST_CASE("Each day has its heading with hours and air", "[report]") {
  const std::string page = calendar_of(sample::plan());
  CHECK(page.find("\nFri 5 March 2027\n----------------\n") != std::string::npos);
  CHECK(page.find("\nSat 6 March 2027\n----------------\n") != std::string::npos);
  CHECK(page.find("\nSun 7 March 2027\n----------------\n") != std::string::npos);
  CHECK(holds(page, "Shop hours 16:00-20:00. Air 14.0 to 18.0 C, 50 to 62 % (logger)."));
  CHECK(holds(page, "Air 14.0 to 19.0 C, 48 to 62 % (usual day)."));
}

TEST_CASE("A step is told in plain words with its clock times", "[report]") {
  const std::string page = calendar_of(sample::plan());
  CHECK(holds(page, "16:00-16:20 Make the sample board for the top [done]"));
  CHECK(holds(page, "16:20-17:10 Sand both faces of the top, P180 (bench room)"));
  CHECK(holds(page, "17:20-17:45 Wipe coat 1 of oil wiping stain on the front of the top"));
  CHECK(holds(page,
              "17:30-18:00 Spray coat 2 of waterborne sealer on the front of the top, 2 people"));
  CHECK(holds(page, "11:30-11:40 Turn the top over"));
  CHECK(holds(page, "On an off-cut of the same board, sanded the same; look at it wet and dry."));
  CHECK(holds(page, "Chance of being in its window: 84 %."));
}

TEST_CASE("A wait stands before the step that waits, with its integral", "[report]") {
  const std::string page = unwrapped(calendar_of(sample::plan()));
  const auto wait = page.find(
      "wait until Sat 17:29: oil wiping stain must be dry enough to recoat (oxidation, 50 kJ/mol; "
      "24.0 h needed at 23 C / 50 %, earned 24.2 h)");
  REQUIRE(wait != std::string::npos);
  CHECK(wait < page.find("Spray coat 2"));
  CHECK(wait > page.find("Sat 6 March 2027 ---"));
}

TEST_CASE("A coat that is mixed for while it waits still shows its wait", "[report]") {
  Plan plan = sample::plan();
  PlanStep drying = sample::step_of(9, StepKind::kWait, sample::fri("18:00"), sample::sat("17:00"));
  drying.attended = false;
  drying.product = "oil-wiping-stain";
  PlanStep mix = sample::step_of(10, StepKind::kMix, sample::sat("17:00"), sample::sat("17:30"));
  mix.product_title = "Waterborne sealer";
  mix.method = "spray";
  mix.coat = 2;
  plan.steps.insert(plan.steps.begin() + 4, {drying, mix});
  const std::string page = unwrapped(calendar_of(plan));
  CHECK(holds(page, "18:00-Sat 17:00 Nobody needed for 23 h: oil wiping stain dries."));
  CHECK_FALSE(holds(page, "Leave the top"));  // the line above says it
  const auto mixing = page.find("17:00-17:30 Mix waterborne sealer and set up the gun for coat 2");
  const auto wait = page.find("wait until Sat 17:29:");
  REQUIRE(mixing != std::string::npos);
  REQUIRE(wait != std::string::npos);
  CHECK(mixing < wait);
  CHECK(wait < page.find("Spray coat 2"));
}

TEST_CASE("Drying that nothing follows is shown", "[report]") {
  Plan plan = sample::plan();
  PlanStep drying = sample::step_of(9, StepKind::kWait, sample::sun("19:05"), sample::sun("20:00"));
  drying.attended = false;
  drying.people = 0;
  plan.steps.push_back(drying);
  CHECK(holds(calendar_of(plan), "19:05-20:00 Leave the top to dry (nobody needed)"));
}

TEST_CASE("Cleaning with a product is cleaning of its tools", "[report]") {
  Plan plan = sample::plan();
  const PlanStep before =
      sample::step_of(20, StepKind::kClean, sample::fri("17:10"), sample::fri("17:15"));
  PlanStep after =
      sample::step_of(21, StepKind::kClean, sample::sun("19:05"), sample::sun("19:10"));
  after.product = "oil-wiping-stain";
  plan.steps.insert(plan.steps.begin() + 2, before);
  plan.steps.push_back(after);
  CHECK(holds(calendar_of(plan), "17:10-17:15 Take the dust off the top"));
  CHECK(holds(calendar_of(plan), "19:05-19:10 Clean the tools"));
}

TEST_CASE("Closing times are told at the step that must meet them", "[report]") {
  const std::string page = unwrapped(calendar_of(sample::plan()));
  CHECK(holds(page, "Begin before Fri 18:00, where it was wetted first."));
  CHECK(holds(page, "Start before Sun 09:00; after that abrade first, if the label allows."));
  Plan missed = sample::plan();
  missed.steps[4].after[0].closes_at = missed.steps[4].start - std::chrono::hours(1);
  missed.steps[4].after[0].condition = "abrade";
  CHECK(holds(calendar_of(missed), "Only on an abraded coat. Its window closed Sat 16:30."));
}

TEST_CASE("Hours in which nobody is needed are shown across the night and within a day",
          "[report]") {
  const std::string page = calendar_of(sample::plan());
  CHECK(holds(page, "18:00-Sat 17:30 Nobody needed for 23 h 30 min: oil wiping stain dries."));
  CHECK(holds(page, "11:40-18:30 Nobody needed for 6 h 50 min."));
}

TEST_CASE("A caution stands in full once a day where it first applies", "[report]") {
  const std::string page = unwrapped(calendar_of(sample::plan()));
  CHECK(times_in(page, "! " + sample::kRagCaution) == 2);     // Friday, Saturday
  CHECK(times_in(page, "! " + sample::kVapourCaution) == 2);  // Saturday, Sunday
  const auto friday_rags = page.find(sample::kRagCaution);
  CHECK(friday_rags > page.find("Wipe coat 1"));
  CHECK(friday_rags < page.find("Wipe the excess off"));
}

TEST_CASE("A note that several steps share stands once a day", "[report]") {
  Plan plan = sample::plan();
  for (PlanStep& step : plan.steps) {
    step.notes = {"Last pass by hand."};
  }
  CHECK(times_in(unwrapped(calendar_of(plan)), "Last pass by hand.") == 3);  // three days
}

TEST_CASE("Every caution of every plan appears", "[report]") {
  for (const auto& [name, plan] : sample::all_plans()) {
    const std::string page = unwrapped(calendar_of(plan));
    for (const PlanStep& step : plan.steps) {
      for (const std::string& caution : step.cautions) {
        INFO(name << ": " << caution);
        CHECK(page.find("! " + caution) != std::string::npos);
      }
    }
  }
}

TEST_CASE("Milestones come by time, with weekday and date in summer time too", "[report]") {
  const std::string page = unwrapped(calendar_of(sample::plan()));
  const auto wrapped = page.find("Tue 9 March 2027 10:30 top: stack or wrap (print-free)");
  const auto light = page.find("Tue 16 March 2027 08:00 top: light use");
  REQUIRE(wrapped != std::string::npos);
  REQUIRE(light != std::string::npos);
  CHECK(wrapped < light);
  CHECK(holds(page, "Not before, by calculation only:"));
}

TEST_CASE("Quantities, warnings and the last word are on the page", "[report]") {
  const std::string page = calendar_of(sample::plan());
  CHECK(holds(page, "0.35 L Oil wiping stain: 1 coat x 2 faces x 1.90 m2 / 11 m2 per L"));
  CHECK(holds(page, "! The shop's usual day is not known; 18 C and 50 % are taken."));
  const auto lines = sample::lines_of(page);
  REQUIRE(lines.size() > 2);
  CHECK(lines[lines.size() - 2].find("label and data sheet come first") != std::string::npos);
  CHECK(lines.back().find("Test before you coat") != std::string::npos);
}

TEST_CASE("The maker's units are used throughout", "[report]") {
  const std::string page = calendar_of(sample::plan(), UnitSystem::kUs);
  // EVIDENCE: nist_sp811 B.8: 1.9 m2 / 0.09290304 = 20.45 sq ft; 0.35 L / 0.946353 = 0.370 qt;
  // 14 C = 57.2 F, 18 C = 64.4 F, 23 C = 73.4 F.
  CHECK(holds(page, "20.5 sq ft a face"));
  CHECK(holds(page, "0.37 qt Oil wiping stain: 1 coat"));
  CHECK(holds(page, "Air 57.2 to 64.4 F, 50 to 62 % (logger)."));
  CHECK(holds(page, "24.0 h needed at 73 F / 50 %"));
  CHECK(holds(page, "Air 60.8 F, 60 %; surface 59.9 F"));
}

TEST_CASE("A start with odd seconds is never shown too early", "[report]") {
  Plan plan = sample::plan();
  plan.steps[4].start += std::chrono::seconds(1);
  plan.steps[4].after[0].opens_at += std::chrono::seconds(1);
  const std::string page = calendar_of(plan);
  CHECK(holds(page, "17:31-18:00 Spray coat 2"));
  CHECK(holds(page, "wait until Sat 17:30:"));
}

TEST_CASE("An empty plan says that nothing is planned", "[report]") {
  CHECK(holds(calendar_of(Plan{}), "Nothing is planned"));
}

TEST_CASE("Every kind of step has a sentence of its own", "[report]") {
  std::set<std::string> sentences;
  const int last = static_cast<int>(StepKind::kDeliver);
  for (int kind = 0; kind <= last; ++kind) {
    PlanStep step =
        sample::step_of(1, static_cast<StepKind>(kind), sample::fri("16:00"), sample::fri("16:30"));
    step.product = "shellac";
    step.product_title = "Shellac";
    sentences.insert(sentence_of(Plan{}, step));
  }
  CHECK(sentences.size() == static_cast<std::size_t>(last) + 1);
}
