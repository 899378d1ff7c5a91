#include "recipe/adaptation.h"

#include <algorithm>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "recipe/grits.h"

using namespace coatwright;

namespace {

using Grits = std::vector<std::string>;
using Kind = ScheduleStepKind;

template <class T>
T value_of(Result<T> result) {
  if (!result) {
    FAIL(result.error().text());
  }
  return std::move(*result);
}

const WoodSurface kPlaned = {SurfaceLeft::kPlaned, ""};

Schedule schedule_of(const std::string& steps, const std::string& extra = "") {
  return value_of(
      RecipeBook::read_schedule("format = 1\nname = \"mine\"\ntitle = \"Mine\"\n"
                                "summary = \"One.\"\nlook = \"clear film\"\n"
                                "suits = [\"shelf\"]\nuses = \"shelves\"\n"
                                "sheen = \"satin\"\nskill = \"practised\"\n"
                                "tools = [\"brush\"]\n" +
                                    extra + steps,
                                "mine.toml"));
}

const std::string kSand = "[[step]]\nkind = \"sand\"\n";

std::string coat(const std::string& product, const std::string& method) {
  return "[[step]]\nkind = \"coat\"\nproduct = \"" + product + "\"\nmethod = \"" + method + "\"\n";
}

Result<Schedule> on(const RecipeBook& book,
                    const Schedule& schedule,
                    const std::string& wood,
                    const WoodSurface& surface = kPlaned) {
  return adapted(schedule, *value_of(book.species(wood)), surface, book);
}

const ScheduleStep& step_of(const Schedule& schedule, Kind kind) {
  const auto step = std::find_if(schedule.steps.begin(),
                                 schedule.steps.end(),
                                 [kind](const ScheduleStep& one) { return one.kind == kind; });
  REQUIRE(step != schedule.steps.end());
  return *step;
}

std::size_t count_of(const Schedule& schedule, Kind kind) {
  return static_cast<std::size_t>(
      std::count_if(schedule.steps.begin(), schedule.steps.end(), [kind](const ScheduleStep& one) {
        return one.kind == kind;
      }));
}

std::vector<std::string> products_of(const Schedule& schedule) {
  std::vector<std::string> products;
  for (const ScheduleStep& step : schedule.steps) {
    if (step.kind == Kind::kCoat) {
      products.push_back(step.product);
    }
  }
  return products;
}

bool may_follow(const RecipeBook& book, const std::string& under, const std::string& over) {
  const PairRule rule =
      value_of(book.pair(*value_of(book.product(under)), *value_of(book.product(over))));
  return std::any_of(rule.intervals.begin(), rule.intervals.end(), [](const RecoatInterval& one) {
    return one.condition != RecoatCondition::kNever;
  });
}

/// Everything that holds of a schedule which was adapted.
void check_concrete(const RecipeBook& book, const Schedule& schedule, const Species& species) {
  for (std::size_t i = 0; i < schedule.steps.size(); ++i) {
    const ScheduleStep& step = schedule.steps[i];
    CAPTURE(i, std::string(name_of(step.kind)));
    CHECK(step.woods.empty());
    const bool wants_grits =
        step.kind != Kind::kSample && step.kind != Kind::kWash && step.kind != Kind::kCoat;
    CHECK(step.grits.empty() != wants_grits);
    CHECK(grit_remarks(step.grits).empty());
    if (step.kind == Kind::kRubOut) {
      CHECK(step.waits);
    }
    if (!step.note.empty()) {
      CHECK(step.note.find("..") == std::string::npos);
      CHECK(step.note.back() == '.');
    }
  }
  const Product& decides = *value_of(product_to_sand_for(schedule, book));
  const GritLimits& limits =
      value_of(book.sanding())->final_grits.at(decides.layer).limits.at(sanded_wood(species));
  const std::string& last = step_of(schedule, Kind::kSand).grits.back();
  CAPTURE(decides.name, last, limits.coarsest, limits.finest);
  CHECK(*mean_grain_um(last) <= *mean_grain_um(limits.coarsest));
  CHECK(*mean_grain_um(last) >= *mean_grain_um(limits.finest));
}

void check_pairs(const RecipeBook& book, const Schedule& schedule) {
  const std::vector<std::string> products = products_of(schedule);
  for (std::size_t i = 1; i < products.size(); ++i) {
    CAPTURE(products[i - 1], products[i]);
    CHECK(may_follow(book, products[i - 1], products[i]));
  }
}

}  // namespace

TEST_CASE("Every schedule is made concrete for every wood, or refused with a reason", "[recipe]") {
  const RecipeBook book;
  std::size_t refused = 0;
  std::size_t concrete = 0;
  for (const std::string& name : book.schedule_names()) {
    for (const std::string& wood : value_of(book.species_names())) {
      for (const char* surface : {"sawn", "planed", "scraped", "old-finish", "P150"}) {
        CAPTURE(name, wood, surface);
        const Species& species = *value_of(book.species(wood));
        const auto result =
            on(book, *value_of(book.schedule(name)), wood, value_of(parse_wood_surface(surface)));
        if (!result) {
          // An oil cures by oxygen, which an oily wood's own oils hold up, and needs bare wood.
          CHECK(species.oily);
          CHECK(result.error().code == ErrorCode::kOutOfRange);
          CHECK_THAT(result.error().message,
                     Catch::Contains("oily") && Catch::Contains("What would work"));
          ++refused;
          continue;
        }
        ++concrete;
        check_concrete(book, *result, species);
        check_pairs(book, *result);
      }
    }
  }
  CHECK(refused > 0);
  CHECK(concrete > refused);
}

TEST_CASE("There are schedules for every look and every use", "[recipe]") {
  const RecipeBook book;  // consistency check
  CHECK(book.schedule_names().size() >= 24);
  for (const char* use : {"table-top",
                          "kitchen",
                          "shelf",
                          "case-work",
                          "door",
                          "drawer",
                          "chair",
                          "bed",
                          "bench",
                          "small-work",
                          "turning",
                          "desk-top"}) {
    const std::vector<std::string> names = book.schedule_names();
    CAPTURE(use);
    CHECK(std::any_of(names.begin(), names.end(), [&](const std::string& name) {
      const auto& suits = value_of(book.schedule(name))->suits;
      return std::find(suits.begin(), suits.end(), use) != suits.end();
    }));
  }
  for (const std::string& name : book.schedule_names()) {
    CAPTURE(name);
    const Schedule& schedule = *value_of(book.schedule(name));
    CHECK(schedule.steps.front().kind == Kind::kSample);
    CHECK_THAT(schedule.uses, Catch::Contains("interior only, not "));
  }
}

TEST_CASE("Sanding runs from what the surface needs to what the first product wants", "[recipe]") {
  const RecipeBook book;
  // Common practice: planed wood begins with P120, sawn with P80; under varnish P180.
  const Schedule varnish = schedule_of(kSand + coat("oil-modified-varnish", "brush"));
  CHECK(step_of(value_of(on(book, varnish, "white-ash")), Kind::kSand).grits ==
        Grits{"P120", "P180"});
  CHECK(step_of(value_of(on(book, varnish, "white-ash", {SurfaceLeft::kSawn, ""})), Kind::kSand)
            .grits == Grits{"P80", "P120", "P180"});
  const auto oiled = value_of(on(book, schedule_of(kSand + coat("hardwax-oil", "pad")), "red-oak"));
  const ScheduleStep& sand = step_of(oiled, Kind::kSand);
  CHECK(sand.grits == Grits{"P120", "P150"});
  CHECK(sand.source == "common-practice");
  CHECK_THAT(sand.note, Catch::StartsWith("To P150 on Northern red oak under hardwax-oil: "));
}

TEST_CASE("Wood that is sanded too fine is sanded back", "[recipe]") {
  const RecipeBook book;
  const Schedule oil = schedule_of(kSand + coat("hardwax-oil", "pad"));
  const auto result = value_of(on(book, oil, "red-oak", {SurfaceLeft::kSanded, "P320"}));
  CHECK(step_of(result, Kind::kSand).grits == Grits{"P150"});
  CHECK_THAT(step_of(result, Kind::kSand).note, Catch::Contains("go back to P150"));
}

TEST_CASE("Grits that the maker named stay, with coarser ones in front where needed", "[recipe]") {
  const RecipeBook book;
  const Schedule own =
      schedule_of(kSand + "grits = [\"P120\", \"P150\"]\n" + coat("oil-modified-varnish", "brush"));
  CHECK(step_of(value_of(on(book, own, "white-ash")), Kind::kSand).grits == Grits{"P120", "P150"});
  CHECK(step_of(value_of(on(book, own, "white-ash")), Kind::kSand).note.empty());
  const auto sawn = value_of(on(book, own, "white-ash", {SurfaceLeft::kSawn, ""}));
  CHECK(step_of(sawn, Kind::kSand).grits == Grits{"P80", "P120", "P150"});
  CHECK(step_of(sawn, Kind::kSand).note ==
        "Put in first: P80; the marks of the saw must be levelled first.");
  const Schedule fine =
      schedule_of(kSand + "grits = [\"P220\", \"P320\"]\n" + coat("hardwax-oil", "pad"));
  CHECK_THAT(step_of(value_of(on(book, fine, "white-ash")), Kind::kSand).note,
             Catch::Contains("P120 to P180 is usual"));
}

TEST_CASE("The work of the stain and lacquer schedule on white ash stays as it is", "[recipe]") {
  const RecipeBook book;  // consistency check
  const Schedule& given = *value_of(book.schedule("stain-and-lacquer"));
  const Schedule result = value_of(on(book, given, "white-ash"));
  REQUIRE(result.steps.size() == given.steps.size());
  CHECK(step_of(result, Kind::kSand).grits == Grits{"P120", "P150", "P180"});
  CHECK(step_of(result, Kind::kAbrade).grits == Grits{"P320"});
  for (std::size_t i = 0; i < given.steps.size(); ++i) {
    CHECK(result.steps[i].note == given.steps[i].note);
  }
}

TEST_CASE("The grain is raised before water raises it, unless the wood was sealed", "[recipe]") {
  const RecipeBook book;
  const Schedule bare = schedule_of(kSand + coat("waterborne-clear", "brush"));
  const auto result = value_of(on(book, bare, "white-ash"));
  REQUIRE(result.steps.size() == 3);
  CHECK(result.steps[1].kind == Kind::kRaiseGrain);
  CHECK(result.steps[1].grits == Grits{"P220"});  // common practice
  CHECK_THAT(result.steps[1].note, Catch::Contains("waterborne-clear wets bare wood"));
  const Schedule own =
      schedule_of(kSand + "[[step]]\nkind = \"raise-grain\"\n" + coat("waterborne-clear", "brush"));
  CHECK(count_of(value_of(on(book, own, "white-ash")), Kind::kRaiseGrain) == 1);
  const Schedule sealed =
      schedule_of(kSand + coat("dewaxed-shellac", "pad") + coat("waterborne-clear", "brush"));
  CHECK(count_of(value_of(on(book, sealed, "white-ash")), Kind::kRaiseGrain) == 0);
  const Schedule stained =
      schedule_of(kSand + coat("alcohol-dye-stain", "wipe") + coat("water-grain-filler", "wipe"));
  const auto before = value_of(on(book, stained, "white-ash"));
  CHECK(before.steps[1].kind == Kind::kRaiseGrain);  // not between the coats: it would cut the dye
}

TEST_CASE("Oily wood is washed, and shellac parts it from what cures by oxygen", "[recipe]") {
  const RecipeBook book;
  // EVIDENCE: trade_finishing_web oily exotic woods: solvent wipe, then dewaxed shellac, P220
  const auto result =
      value_of(on(book, schedule_of(kSand + coat("oil-modified-varnish", "brush")), "teak"));
  REQUIRE(result.steps.size() == 4);
  CHECK(step_of(result, Kind::kSand).grits.back() == "P220");
  CHECK(result.steps[1].kind == Kind::kWash);
  CHECK(products_of(result) == Grits{"dewaxed-shellac", "oil-modified-varnish"});
  CHECK_THAT(result.steps[2].note, Catch::Contains("barrier"));
  CHECK(result.tools == Grits{"brush", "rags"});
  const auto lacquered =
      value_of(on(book, schedule_of(kSand + coat("precatalysed-lacquer", "spray")), "teak"));
  CHECK(products_of(lacquered) == Grits{"precatalysed-lacquer"});
  CHECK(lacquered.steps[1].kind == Kind::kWash);
  CHECK_THAT(lacquered.steps[1].note, Catch::Contains("Flammable vapour"));
}

TEST_CASE("A barrier which the next coat crawls on is abraded", "[recipe]") {
  const RecipeBook book;
  const auto result =
      value_of(on(book, schedule_of(kSand + coat("gel-stain", "wipe")), "cocobolo"));
  REQUIRE(result.steps.size() == 5);
  CHECK(products_of(result) == Grits{"dewaxed-shellac", "gel-stain"});
  CHECK(result.steps[3].kind == Kind::kAbrade);
  CHECK(result.steps[3].grits == Grits{"P320"});
}

TEST_CASE("An oil on oily wood is refused, with what would work", "[recipe]") {
  const RecipeBook book;
  const auto result =
      on(book, schedule_of(kSand + coat("boiled-linseed-oil", "wipe")), "indian-rosewood");
  REQUIRE_FALSE(result);
  CHECK(result.error().code == ErrorCode::kOutOfRange);
  CHECK_THAT(result.error().text(),
             Catch::Contains("mine on indian-rosewood") &&
                 Catch::Contains("boiled-linseed-oil, which cures by taking up oxygen") &&
                 Catch::Contains("What would work: a varnish over dewaxed-shellac"));
}

TEST_CASE("A wash coat evens a penetrating stain on wood that blotches", "[recipe]") {
  const RecipeBook book;
  // EVIDENCE: trade_finishing_web maple, birch, cherry and pine blotch, oak and walnut do not
  const Schedule stain = schedule_of(kSand + coat("oil-wiping-stain", "wipe"));
  for (const char* wood : {"hard-maple", "yellow-birch", "black-cherry", "eastern-white-pine"}) {
    CAPTURE(wood);
    const auto result = value_of(on(book, stain, wood));
    CHECK(products_of(result) == Grits{"shellac-wash-coat", "oil-wiping-stain"});
    CHECK(count_of(result, Kind::kAbrade) == 1);
    CHECK(step_of(result, Kind::kSand).grits.back() == "P180");  // the stain decides
  }
  for (const char* wood : {"red-oak", "black-walnut"}) {
    CAPTURE(wood);
    CHECK(products_of(value_of(on(book, stain, wood))) == Grits{"oil-wiping-stain"});
  }
  const Schedule gel = schedule_of(kSand + coat("gel-stain", "wipe"));
  CHECK(products_of(value_of(on(book, gel, "hard-maple"))) == Grits{"gel-stain"});
  const Schedule own =
      schedule_of(kSand + coat("shellac-wash-coat", "wipe") + coat("oil-wiping-stain", "wipe"));
  CHECK(products_of(value_of(on(book, own, "hard-maple"))).size() == 2);
}

TEST_CASE("Steps for other woods are left out, and the note says why", "[recipe]") {
  const RecipeBook book;
  const Schedule filled =
      schedule_of(kSand + coat("water-grain-filler", "wipe") + "woods = [\"open-pored\"]\n" +
                      "[[step]]\nkind = \"abrade\"\nwoods = [\"open-pored\"]\n" +
                      coat("precatalysed-lacquer", "spray"),
                  "filled = true\n");
  const auto maple = value_of(on(book, filled, "hard-maple"));
  REQUIRE(maple.steps.size() == 2);
  CHECK(maple.steps[1].note ==
        "Left out here: filling with water-grain-filler, abrading; Hard (sugar) maple has no pores "
        "to fill.");
  CHECK(products_of(value_of(on(book, filled, "true-mahogany"))).size() == 2);
  CHECK(products_of(value_of(on(book, filled, "red-oak"))).size() == 2);
  const Schedule none =
      schedule_of(kSand + coat("precatalysed-lacquer", "spray") + "woods = [\"oily\"]\n");
  CHECK(on(book, none, "red-oak").error().code == ErrorCode::kOutOfRange);
}

TEST_CASE("Rubbing out takes the grits of the sheen and the wait of the last film", "[recipe]") {
  const RecipeBook book;
  const std::string rub = "[[step]]\nkind = \"rub-out\"\n";
  const auto result =
      value_of(on(book, schedule_of(kSand + coat("rubbing-varnish", "brush") + rub), "white-ash"));
  const ScheduleStep& step = step_of(result, Kind::kRubOut);
  // Common practice: satin by P600 and P800, then wool with wax; varnish after 14 to 30 days.
  CHECK(step.grits == Grits{"P600", "P800"});
  REQUIRE(step.waits);
  CHECK(step.waits->low().hours() == 14 * 24);
  CHECK(step.waits->high().hours() == 30 * 24);
  CHECK_THAT(step.note, Catch::Contains("Then with") && Catch::Contains("The wait: "));
  const auto oil = on(book, schedule_of(kSand + coat("hardwax-oil", "pad") + rub), "white-ash");
  CHECK(oil.error().code == ErrorCode::kNotFound);
  CHECK_THAT(oil.error().message, Catch::Contains("waits_low_hours"));
}

TEST_CASE("A surface is named as the saw, the planer, the scraper or a grit left it", "[recipe]") {
  CHECK(value_of(parse_wood_surface("planed")).left == SurfaceLeft::kPlaned);
  CHECK(value_of(parse_wood_surface("P120")).grit == "P120");
  CHECK(parse_wood_surface("sanded").error().code == ErrorCode::kUsage);
  CHECK_THAT(parse_wood_surface("rough").error().message, Catch::Contains("old-finish"));
}
