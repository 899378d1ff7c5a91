// What may go over what: the compatibility files against facts of the trade.
#include <set>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "recipe/compatibility_files.h"
#include "recipe/recipe_book.h"

namespace coatwright {
namespace {

using test::all_pairs;
using test::entry_of;
using test::keeps_apart;
using test::kOldFinish;
using test::Layer;
using test::layers;
using test::value_of;
using test::verdict_of;

}  // namespace

TEST_CASE("Every layer says what each other layer needs over it", "[recipe]") {
  std::size_t expected = 0;  // consistency check
  for (const Layer& under : layers()) {
    for (const Layer& over : layers()) {
      CAPTURE(under.name, over.name);
      const bool wanted = over.name != under.name && over.name != kOldFinish;
      CHECK(all_pairs().contains({under.name, over.name}) == wanted);
      expected += wanted ? 1 : 0;
    }
  }
  CHECK(all_pairs().size() == expected);  // no layer that is not in the list
}

TEST_CASE("Nothing goes over wax", "[recipe]") {
  for (const Layer& over : layers()) {
    if (over.name == "paste-wax" || over.name == kOldFinish) {
      continue;
    }
    CAPTURE(over.name);
    // EVIDENCE: trade_finishing_web wax accepts nothing but wax
    CHECK(verdict_of("paste-wax", over.name) == PairVerdict::kNever);
    // common practice: the wax in a hardwax oil does the same; wax alone may go over it
    if (over.name != "hardwax-oil") {
      CHECK(verdict_of("hardwax-oil", over.name) == PairVerdict::kNever);
    }
  }
  CHECK_FALSE(keeps_apart(verdict_of("hardwax-oil", "paste-wax")));
}

TEST_CASE("No strong solvent goes over an oil film", "[recipe]") {
  // EVIDENCE: trade_finishing_web the solvents of lacquer attack and wrinkle varnish and alkyd
  // paint; read for lacquer over varnish, derived for the rest
  for (const auto* under : {"oil-varnish", "wiping-varnish", "alkyd-enamel"}) {
    for (const auto* over : {"nitrocellulose-sealer",
                             "vinyl-sealer",
                             "nitrocellulose-lacquer",
                             "precatalysed-lacquer",
                             "conversion-varnish",
                             "two-part-polyurethane"}) {
      CAPTURE(under, over);
      CHECK(verdict_of(under, over) == PairVerdict::kNever);
    }
  }
}

TEST_CASE("No oil and no penetrating stain goes over a film", "[recipe]") {
  for (const auto* under : {"dewaxed-shellac",
                            "waxed-shellac",
                            "nitrocellulose-sealer",
                            "vinyl-sealer",
                            "nitrocellulose-lacquer",
                            "precatalysed-lacquer",
                            "conversion-varnish",
                            "waterborne-clear",
                            "oil-varnish",
                            "wiping-varnish",
                            "two-part-polyurethane",
                            "moisture-cure-polyurethane",
                            "alkyd-enamel",
                            "waterborne-enamel",
                            "epoxy-sealer"}) {
    CAPTURE(under);
    // EVIDENCE: trade_finishing_web oil must soak into wood, on a film it stays tacky; hardwax oil:
    // common practice
    for (const auto* oil : {"drying-oil", "oil-varnish-blend", "hardwax-oil"}) {
      CAPTURE(oil);
      CHECK(verdict_of(under, oil) == PairVerdict::kNever);
    }
    // EVIDENCE: trade_finishing_web a penetrating stain cannot enter sealed wood
    for (const auto* stain : {"oil-stain", "water-stain", "dye-stain"}) {
      CAPTURE(stain);
      CHECK(verdict_of(under, stain) == PairVerdict::kNever);
    }
  }
}

TEST_CASE("A wash coat counts as bare wood for stain and filler", "[recipe]") {
  // EVIDENCE: trade_finishing_web a wash coat of 5 to 10 % solids, against a full coat
  for (const auto* over : {"oil-stain",
                           "water-stain",
                           "dye-stain",
                           "gel-stain",
                           "oil-grain-filler",
                           "water-grain-filler"}) {
    CAPTURE(over);
    CHECK(verdict_of("wash-coat", over) == PairVerdict::kOk);
  }
  CHECK(verdict_of("dewaxed-shellac", "oil-stain") == PairVerdict::kNever);
}

TEST_CASE("A waterborne finish waits for oil stain to cure, or has shellac between", "[recipe]") {
  // EVIDENCE: trade_finishing_web several days up to a week, 72 h; or behind dewaxed shellac
  for (const auto* over : {"waterborne-clear", "waterborne-enamel"}) {
    CAPTURE(over);
    const PairEntry& entry = entry_of("oil-stain", over);
    CHECK(entry.rule.verdict == PairVerdict::kFullCureFirst);
    REQUIRE(entry.intervals.size() == 1);
    REQUIRE(entry.intervals[0].opens);
    CHECK(entry.intervals[0].opens->low() >= Hours::from_hours(72.0));
    CHECK(entry.rule.barriers == std::vector<std::string>{"dewaxed-shellac"});
  }
}

TEST_CASE("Conversion varnish keeps to its own kind", "[recipe]") {
  // EVIDENCE: trade_finishing_web it adheres poorly to shellac and to sanding sealer; over lacquer
  // and over epoxy: from memory; over drying oil: common practice
  for (const auto* under : {"dewaxed-shellac",
                            "waxed-shellac",
                            "nitrocellulose-sealer",
                            "nitrocellulose-lacquer",
                            "precatalysed-lacquer",
                            "waterborne-clear",
                            "drying-oil",
                            "epoxy-sealer"}) {
    CAPTURE(under);
    CHECK(verdict_of(under, "conversion-varnish") == PairVerdict::kNever);
  }
  // EVIDENCE: trade_finishing_web two pages treat vinyl sealer as usual under it; catalysed, one
  // coat and the same day: common practice
  const PairEntry& vinyl = entry_of("vinyl-sealer", "conversion-varnish");
  CHECK(vinyl.rule.verdict == PairVerdict::kWithinWindow);
  CHECK_THAT(vinyl.rule.reason, Catch::Contains("catalysed"));
  REQUIRE(vinyl.intervals.front().closes);
  CHECK(vinyl.intervals.front().closes->high() <= Hours::from_hours(24.0));
}

TEST_CASE("Shellac without wax goes under nearly every film, with wax it does not", "[recipe]") {
  // EVIDENCE: trade_finishing_web most pages want it without wax under polyurethane and waterborne
  for (const auto* over :
       {"waterborne-clear", "waterborne-enamel", "oil-varnish", "wiping-varnish"}) {
    CAPTURE(over);
    CHECK_FALSE(keeps_apart(verdict_of("dewaxed-shellac", over)));
    const PairRule& waxed = entry_of("waxed-shellac", over).rule;
    CHECK(waxed.verdict == PairVerdict::kBarrierFirst);
    CHECK(waxed.barriers == std::vector<std::string>{"dewaxed-shellac"});
    CHECK_FALSE(waxed.dissent.empty());
  }
}

TEST_CASE("Varnish over oil waits until the oil has cured", "[recipe]") {
  // EVIDENCE: trade_finishing_web boiled linseed oil about a week, raw linseed and tung weeks; one
  // page lets varnish go over uncured oil, which is the dissent
  const PairEntry& entry = entry_of("drying-oil", "oil-varnish");
  CHECK(entry.rule.verdict == PairVerdict::kFullCureFirst);
  CHECK_FALSE(entry.rule.dissent.empty());
  const RecipeBook book;
  const PairRule rule = value_of(book.pair(*value_of(book.product("boiled-linseed-oil")),
                                           *value_of(book.product("oil-modified-varnish"))));
  CHECK(rule.intervals.front().opens.whole().high() >= Hours::from_hours(168.0));
}

TEST_CASE("Epoxy cures for days and is abraded before a film goes over it", "[recipe]") {
  // EVIDENCE: trade_finishing_web 5 to 7 days, washed before it is sanded
  for (const auto* over : {"oil-varnish", "wiping-varnish", "waterborne-clear"}) {
    CAPTURE(over);
    const PairEntry& entry = entry_of("epoxy-sealer", over);
    REQUIRE(entry.intervals.size() == 1);
    CHECK(entry.intervals[0].condition == RecoatCondition::kAbrade);
    REQUIRE(entry.intervals[0].opens);
    CHECK(entry.intervals[0].opens->low() >= Hours::from_hours(120.0));
    CHECK_THAT(entry.rule.reason, Catch::Contains("wash"));
  }
}

TEST_CASE("An unknown old finish takes dewaxed shellac first, or wax", "[recipe]") {
  // common practice
  for (const Layer& over : layers()) {
    if (over.name == kOldFinish) {
      continue;
    }
    CAPTURE(over.name);
    const bool may = over.name == "dewaxed-shellac" || over.name == "paste-wax";
    CHECK(keeps_apart(verdict_of(kOldFinish, over.name)) != may);
  }
}

TEST_CASE("Every barrier goes over what it parts and under what it parts it from", "[recipe]") {
  std::size_t barriers = 0;  // consistency check
  for (const auto& [names, entry] : all_pairs()) {
    for (const std::string& barrier : entry.rule.barriers) {
      CAPTURE(names.first, barrier, names.second);
      CHECK_FALSE(keeps_apart(verdict_of(names.first, barrier)));
      CHECK_FALSE(keeps_apart(verdict_of(barrier, names.second)));
      ++barriers;
    }
  }
  CHECK(barriers > 0);
}

TEST_CASE("No coat that is not abraded is asked to be", "[recipe]") {
  // common practice: stain, filler and thin oil are not scuffed, it would cut through the colour
  for (const auto& [names, entry] : all_pairs()) {
    const std::set<std::string> kNotAbraded = {"oil-stain",
                                               "water-stain",
                                               "dye-stain",
                                               "gel-stain",
                                               "oil-grain-filler",
                                               "water-grain-filler",
                                               "wash-coat",
                                               "oil-varnish-blend",
                                               "drying-oil"};
    for (const IntervalHours& interval : entry.intervals) {
      CAPTURE(names.first, names.second);
      CHECK((!kNotAbraded.contains(names.first) || interval.condition != RecoatCondition::kAbrade));
    }
  }
}

TEST_CASE("Every pair of products has a rule, or says why it has none", "[recipe]") {
  const RecipeBook book;  // consistency check
  for (const std::string& under_name : book.product_names()) {
    const Product& under = *value_of(book.product(under_name));
    for (const std::string& over_name : book.product_names()) {
      const Product& over = *value_of(book.product(over_name));
      CAPTURE(under_name, over_name);
      const Result<PairRule> rule = book.pair(under, over);
      if (rule) {
        CHECK_FALSE(rule->intervals.empty());
        CHECK_FALSE(rule->reason.empty());
        continue;
      }
      // Only an old finish is put on by nobody, and only it may be left without a rule.
      CHECK(over.layer == kOldFinish);
      CHECK(rule.error().code == ErrorCode::kNotFound);
      CHECK_THAT(rule.error().text(), Catch::Contains(kOldFinish));
    }
  }
}

}  // namespace coatwright
