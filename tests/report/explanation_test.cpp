#include "report/explanation.h"

#include "page_checks.h"

using namespace coatwright;

namespace {

std::string explained(const Plan& plan, UnitSystem units = UnitSystem::kMetric) {
  return show_explanation(plan, sample::zone(), units);
}

bool holds(const std::string& page, const std::string& words) {
  return sample::unwrapped(page).find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("Every explanation fits 80 columns and shows no broken figure", "[report]") {
  for (const auto& [name, plan] : sample::all_plans()) {
    for (const UnitSystem units : {UnitSystem::kMetric, UnitSystem::kUs}) {
      INFO(name);
      sample::check_page(explained(plan, units));
    }
  }
}

TEST_CASE("A wait is explained by range, law, gate, clock, air, integral and source", "[report]") {
  const std::string page = explained(sample::plan());
  CHECK(holds(page, "Step 6, Sat 6 March 2027 17:30: Spray coat 2 of waterborne sealer"));
  CHECK(holds(page, "oil wiping stain must be dry enough to recoat (after step 3):"));
  CHECK(holds(page, "law oxidation, 50 kJ/mol"));
  CHECK(holds(page, "range 12.0 h to 24.0 h at 23 C / 50 % (10th to 90th percentile)"));
  CHECK(holds(page, "needed 24.0 h at 90 % confidence; earned by the step's start: 24.2 h"));
  CHECK(holds(page, "gate nothing earned below 10.0 C"));
  CHECK(holds(page, "clock since Fri 18:00, opens Sat 17:29, closes Sun 09:00"));
  CHECK(holds(page, "air 14.0 to 19.0 C, 48 to 62 % (logger, usual day)"));
  CHECK(holds(page, "chance 88 % of being inside the window at the start"));
  CHECK(holds(page, "source trade-finishing-web"));
}

TEST_CASE("Of two phases each shows what it needed and earned, in turn", "[report]") {
  // Consistency check: 5.5 h fill the first phase of 1 h, and 4.5 h are left for the second.
  Plan plan = sample::plan();
  plan.steps[5].after[0].earned = Hours::from_hours(5.5);
  const std::string page = explained(plan);
  CHECK(holds(page, "phase 1 water loss range 30 min to 60 min"));
  CHECK(holds(page, "needed 60 min at 90 % confidence; earned by the step's start: 60 min"));
  CHECK(holds(page, "phase 2 coalescence, 50 kJ/mol range 2.0 h to 4.0 h"));
  CHECK(holds(page, "needed 4.0 h at 90 % confidence; earned by the step's start: 4.5 h"));
  CHECK(holds(page, "in all needed 5.0 h, earned 5.5 h"));
}

TEST_CASE("The air is told in stretches of one origin", "[report]") {
  const std::string page = explained(sample::plan());
  CHECK(holds(
      page,
      "Fri 5 March 2027 16:00 to Sat 6 March 2027 00:00: logger, 14.0 to 18.0 C, 50 to 62 %"));
  CHECK(holds(page,
              "Sat 6 March 2027 00:00 to Sun 7 March 2027 20:00: usual day, 14.0 to 19.0 C, 48 to "
              "62 %"));
}

TEST_CASE("Rates and working times name their parameters and sources", "[report]") {
  const std::string page = explained(sample::plan());
  CHECK(holds(page, "nitrocellulose-lacquer-spray, dust-free 3 min to 10 min"));
  CHECK(holds(page,
              "evaporation of n-butyl acetate (log10 p/Pa = 9.3378 - 1458.03 / (T/K - 61.605); "
              "perry_dippr); times film factor 0.75; source: from-memory"));
  CHECK(holds(page, "working-times-derived: steps 1, 2, 3, 4, 6, 7, 8"));
}

TEST_CASE("The explanation uses the maker's units", "[report]") {
  const std::string page = explained(sample::plan(), UnitSystem::kUs);
  // EVIDENCE: nist_sp811 B.8: 10 C = 50 F, 14 C = 57.2 F, 19 C = 66.2 F.
  CHECK(holds(page, "nothing earned below 50.0 F"));
  CHECK(holds(page, "57.2 to 66.2 F"));
}

TEST_CASE("A plan without waits says so", "[report]") {
  CHECK(holds(explained(Plan{}), "Waits ----- None."));
}
