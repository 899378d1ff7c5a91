#include "recipe/schedule_check.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "recipe/over_finish.h"

using namespace coatwright;

namespace {

const RecipeBook& book() {
  static const RecipeBook built_in;
  return built_in;
}

struct Coat {
  std::string product;
  int coats = 1;
};

Schedule schedule_of(const std::vector<Coat>& coats, const std::string& look = "clear film") {
  Schedule schedule;
  schedule.name = "by-hand";
  schedule.look = look;
  ScheduleStep sanding;
  sanding.grits = {"P150", "P180"};
  schedule.steps.push_back(sanding);
  for (const Coat& coat : coats) {
    ScheduleStep step;
    step.kind = ScheduleStepKind::kCoat;
    step.product = coat.product;
    step.coats = coat.coats;
    schedule.steps.push_back(step);
  }
  return schedule;
}

std::vector<PairFinding> findings_of(const Schedule& schedule, const Product* base = nullptr) {
  auto findings = check_pairs(schedule, base, book());
  REQUIRE(findings);
  return std::move(*findings);
}

bool is_refused(const Schedule& schedule, const Product* base = nullptr) {
  const auto findings = findings_of(schedule, base);
  return first_refusal(findings) != nullptr;
}

std::vector<const Product*> products_of(const Schedule& schedule) {
  std::vector<const Product*> products;
  for (const ScheduleStep& step : schedule.steps) {
    if (step.kind == ScheduleStepKind::kCoat) {
      products.push_back(*book().product(step.product));
    }
  }
  return products;
}

/// The plain definition, without a table of what was reckoned before.
double plain_distance(const std::vector<const Product*>& one,
                      std::size_t i,
                      const std::vector<const Product*>& other,
                      std::size_t j) {
  if (i == one.size() || j == other.size()) {
    return static_cast<double>(one.size() - i + other.size() - j);
  }
  const Product& a = *one[i];
  const Product& b = *other[j];
  double replaced = a.kind == b.kind ? 0.5 : 1.0;
  replaced = a.layer == b.layer ? 0.25 : replaced;
  replaced = a.name == b.name ? 0.0 : replaced;
  return std::min({replaced + plain_distance(one, i + 1, other, j + 1),
                   1.0 + plain_distance(one, i + 1, other, j),
                   1.0 + plain_distance(one, i, other, j + 1)});
}

}  // namespace

// Facts of the trade, each known without the table; the sources are named beside them.
TEST_CASE("A coat that must not go over the one beneath refuses the schedule", "[recipe]") {
  struct Refused {
    Coat under;
    Coat over;
    const char* word;
  };
  const std::vector<Refused> cases = {
      // EVIDENCE: common-practice: an oil binder seals the pores against water
      {{"oil-wiping-stain"}, {"water-stain"}, "water"},
      // EVIDENCE: trade_finishing_web: nothing holds on wax
      {{"paste-wax"}, {"oil-modified-varnish"}, "wax"},
      {{"paste-wax"}, {"waterborne-clear"}, "wax"},
      {{"paste-wax"}, {"nitrocellulose-lacquer-spray"}, "wax"},
      {{"paste-wax"}, {"hardwax-oil"}, "wax"},
      // EVIDENCE: trade_finishing_web: lacquer's solvents wrinkle an oil film
      {{"oil-modified-varnish", 2}, {"nitrocellulose-lacquer-spray"}, "wrinkle"},
      // EVIDENCE: from-memory: a hard film over a soft one, whose solvent lifts it
      {{"nitrocellulose-lacquer-spray", 2}, {"conversion-varnish"}, "lifts"},
      // EVIDENCE: trade_finishing_web: an oil must soak in; on a film it stays tacky
      {{"oil-modified-varnish"}, {"boiled-linseed-oil"}, "tacky"},
      {{"nitrocellulose-lacquer-spray"}, {"tung-oil"}, "tacky"},
      {{"waterborne-clear"}, {"boiled-linseed-oil"}, "tacky"}};
  for (const Refused& one : cases) {
    const Schedule schedule = schedule_of({one.under, one.over});
    INFO(one.over.product << " over " << one.under.product);
    const auto findings = findings_of(schedule);
    const PairFinding* refused = first_refusal(findings);
    REQUIRE(refused != nullptr);
    CHECK(refused->step == 3);
    CHECK(refused->under->name == one.under.product);
    CHECK(refused->over->name == one.over.product);
    CHECK(refusal_of(*refused).find(one.word) != std::string::npos);
    CHECK(refusal_of(*refused).find(refused->over->title + " must not go over " +
                                    refused->under->title) == 0);
    const std::string nearest = nearest_working_schedule(schedule, {}, book());
    REQUIRE_FALSE(nearest.empty());
    CHECK_FALSE(is_refused(**book().schedule_for(nearest, {})));
  }
}

TEST_CASE("Wax may end a schedule, and what is usual is not refused", "[recipe]") {
  // EVIDENCE: common-practice
  CHECK_FALSE(is_refused(schedule_of({{"dewaxed-shellac", 2}, {"paste-wax"}})));
  CHECK_FALSE(is_refused(schedule_of({{"water-stain"}, {"oil-modified-varnish", 3}})));
  CHECK_FALSE(is_refused(schedule_of({{"dewaxed-shellac"}, {"waterborne-clear", 3}})));
  CHECK_FALSE(is_refused(schedule_of({{"vinyl-sealer"}, {"conversion-varnish", 2}})));
  CHECK_FALSE(is_refused(schedule_of({{"oil-wiping-stain"}, {"nitrocellulose-lacquer-spray", 3}})));
}

TEST_CASE("Each pair is looked at once a step, a product over itself too", "[recipe]") {
  const auto findings =
      findings_of(schedule_of({{"water-stain"}, {"dewaxed-shellac", 3}, {"paste-wax"}}));
  REQUIRE(findings.size() == 3);
  CHECK(findings[0].step == 3);
  CHECK(findings[0].under->name == "water-stain");
  CHECK(findings[1].step == 3);
  CHECK(findings[1].under->name == "dewaxed-shellac");
  CHECK(findings[1].over->name == "dewaxed-shellac");
  CHECK(findings[2].step == 4);
  CHECK(findings_of(schedule_of({{"dewaxed-shellac"}})).empty());
  CHECK(findings_of(schedule_of({{"dewaxed-shellac", 2}})).size() == 1);
}

TEST_CASE("What lies on the piece is looked at beneath the first coat", "[recipe]") {
  const Product* old = *book().finish_on_piece("old-finish");
  const Product* wax = *book().finish_on_piece("paste-wax");
  CHECK(is_refused(schedule_of({{"oil-wiping-stain"}}), old));
  CHECK_FALSE(is_refused(schedule_of({{"dewaxed-shellac"}}), old));
  CHECK(is_refused(schedule_of({{"dewaxed-shellac"}}), wax));
  const auto barrier = findings_of(schedule_of({{"oil-modified-varnish"}}), old);
  REQUIRE(first_refusal(barrier) != nullptr);
  CHECK(refusal_of(barrier.front()).find("between: dewaxed-shellac") != std::string::npos);
  // Over wax no schedule works but wax.
  const Schedule varnish = schedule_of({{"oil-modified-varnish", 3}});
  const std::string nearest = nearest_working_schedule(varnish, {nullptr, {}, wax}, book());
  if (!nearest.empty()) {
    const auto works = book().schedule_for(nearest, {nullptr, {}, wax});
    REQUIRE(works);
    for (const Product* product : products_of(**works)) {
      CHECK(product->kind == ProductKind::kWax);
    }
  }
}

TEST_CASE("An unknown product is an error that names the step", "[recipe]") {
  const auto findings = check_pairs(schedule_of({{"moon-varnish"}}), nullptr, book());
  REQUIRE_FALSE(findings);
  CHECK(findings.error().code == ErrorCode::kNotFound);
  CHECK(findings.error().text().find("step 2") != std::string::npos);
}

// EVIDENCE: Levenshtein's edit distance by its plain recursion; the costs are judgement
TEST_CASE("Unlikeness is the edit distance over coats", "[recipe]") {
  const std::vector<std::string> names = book().schedule_names();
  for (const std::string& one : names) {
    for (const std::string& other : names) {
      const Schedule& a = **book().schedule(one);
      const Schedule& b = **book().schedule(other);
      const double plain =
          plain_distance(products_of(a), 0, products_of(b), 0) + (a.look == b.look ? 0.0 : 0.5);
      INFO(one << " and " << other);
      CHECK(unlikeness(a, b, book()) == Approx(plain).margin(1e-12));
      CHECK(unlikeness(a, b, book()) == Approx(unlikeness(b, a, book())).margin(1e-12));
    }
    CHECK(unlikeness(**book().schedule(one), **book().schedule(one), book()) == 0.0);
  }
  CHECK(std::isinf(unlikeness(schedule_of({{"moon-varnish"}}), schedule_of({}), book())));
}

TEST_CASE("The nearest schedule is the least unlike of those that work", "[recipe]") {
  for (const auto& coats : std::vector<std::vector<Coat>>{
           {{"oil-wiping-stain"}, {"water-stain"}, {"oil-modified-varnish", 3}},
           {{"paste-wax"}, {"dewaxed-shellac", 2}},
           {{"nitrocellulose-lacquer-spray"}, {"conversion-varnish", 2}}}) {
    const Schedule schedule = schedule_of(coats);
    for (const Product* base :
         std::vector<const Product*>{nullptr, *book().finish_on_piece("old-finish")}) {
      const PieceSurface surface{*book().species("hard-maple"), {}, base};
      const std::string nearest = nearest_working_schedule(schedule, surface, book());
      REQUIRE_FALSE(nearest.empty());
      const double least =
          plain_distance(products_of(schedule), 0, products_of(**book().schedule(nearest)), 0) +
          (schedule.look == (**book().schedule(nearest)).look ? 0.0 : 0.5);
      for (const std::string& name : book().schedule_names()) {
        const auto made = book().schedule_for(name, surface);
        if (!made || is_refused(**made, base)) {
          CHECK(name != nearest);
          continue;
        }
        const Schedule& other = **book().schedule(name);
        CHECK(plain_distance(products_of(schedule), 0, products_of(other), 0) +
                  (schedule.look == other.look ? 0.0 : 0.5) >=
              least - 1e-12);
      }
    }
  }
}

TEST_CASE("No built-in schedule is refused on bare wood that bears it", "[recipe]") {
  int checked = 0;
  const std::vector<std::string> woods_known = *book().species_names();
  for (const std::string& name : book().schedule_names()) {
    CHECK_FALSE(is_refused(**book().schedule(name)));
    int woods = 0;
    for (const std::string& species : woods_known) {
      const auto made = book().schedule_for(name, {*book().species(species), {}, nullptr});
      if (!made) {
        CHECK(made.error().code == ErrorCode::kOutOfRange);
        continue;
      }
      INFO(name << " on " << species);
      CHECK_FALSE(is_refused(**made));
      ++woods;
    }
    CHECK(woods > 0);
    checked += woods;
  }
  CHECK(checked > 500);
}

TEST_CASE("A barrier that is put in over a finish holds and bears what follows", "[recipe]") {
  int barriers = 0;
  for (const std::string& over : book().product_names()) {
    const Product* base = *book().finish_on_piece(over);
    for (const std::string& name : book().schedule_names()) {
      const auto made = book().schedule_for(name, {nullptr, {}, base});
      if (!made) {
        CHECK(made.error().code != ErrorCode::kFault);
        continue;
      }
      const auto usual = products_of(**book().schedule(name));
      const auto products = products_of(**made);
      const auto findings = check_pairs(**made, base, book());
      if (products.size() <= usual.size() || !findings) {
        continue;
      }
      ++barriers;
      INFO(name << " over " << over);
      CHECK(first_refusal(*findings) == nullptr);
      CHECK(products[0]->name != products[1]->name);
    }
  }
  CHECK(barriers > 20);
}
