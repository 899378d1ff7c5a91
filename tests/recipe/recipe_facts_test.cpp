// The recipes against facts from outside the project.
#include <algorithm>
#include <map>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "recipe/recipe_book.h"

namespace coatwright {
namespace {

// Largest ratio of mean grain sizes from one grit to the next. Source: judgement, from sequences of
// trade pages: P80-P120 is 1.61, and P80-P180 at 2.45 is called a skip.
constexpr double kMostGritRatio = 1.65;

/// Mean grain sizes in micrometres. EVIDENCE: iso_6344 table of P grades (secondary copy)
const std::map<std::string, double>& grain_sizes() {
  static const std::map<std::string, double> kSizes = {
      {"P60", 269},
      {"P80", 201},
      {"P100", 162},
      {"P120", 125},
      {"P150", 100},
      {"P180", 82},
      {"P220", 68},
      {"P240", 58.5},
      {"P280", 52.2},
      {"P320", 46.2},
      {"P360", 40.5},
      {"P400", 35.0},
  };
  return kSizes;
}

const Product& product(const RecipeBook& book, const std::string& name) {
  const Result<const Product*> found = book.product(name);
  if (!found) {
    FAIL(found.error().message);
  }
  return **found;
}

const Schedule& schedule(const RecipeBook& book, const std::string& name) {
  const Result<const Schedule*> found = book.schedule(name);
  if (!found) {
    FAIL(found.error().message);
  }
  return **found;
}

DurationRange hours_of(const RecipeBook& book, const std::string& name, Stage stage) {
  const DryingStage* found = product(book, name).stage(stage);
  if (found == nullptr) {
    FAIL(name << " has no stage " << name_of(stage));
  }
  return found->timing.whole();
}

bool overlaps(const DurationRange& range, double low, double high) {
  return range.low().hours() <= high && low <= range.high().hours();
}

bool holds(const DurationRange& range, double hours) {
  return overlaps(range, hours, hours);
}

bool opens_without_abrading(const PairRule& rule) {
  return std::any_of(rule.intervals.begin(), rule.intervals.end(), [](const auto& interval) {
    return interval.condition == RecoatCondition::kNone;
  });
}

bool is_forbidden(const PairRule& rule) {
  return std::all_of(rule.intervals.begin(), rule.intervals.end(), [](const auto& interval) {
    return interval.condition == RecoatCondition::kNever;
  });
}

PairRule pair_of(const RecipeBook& book, const std::string& under, const std::string& over) {
  Result<PairRule> rule = book.pair(product(book, under), product(book, over));
  if (!rule) {
    FAIL(rule.error().message);
  }
  return std::move(*rule);
}

}  // namespace

TEST_CASE("Shellac agrees with the government manual", "[recipe]") {
  const RecipeBook book;
  // EVIDENCE: federal_specs TM 43-0139 sec. 2-23: handle 1 h, recoat 2 to 3 h, hard 24 h
  CHECK(holds(hours_of(book, "dewaxed-shellac", Stage::kHandle), 1.0));
  CHECK(overlaps(hours_of(book, "dewaxed-shellac", Stage::kRecoat), 2.0, 3.0));
  CHECK(hours_of(book, "dewaxed-shellac", Stage::kRecoat).high() >= Hours::from_hours(2.0));
  CHECK(holds(hours_of(book, "dewaxed-shellac", Stage::kDryHard), 24.0));
  CHECK(hours_of(book, "dewaxed-shellac", Stage::kPrintFree).low() >= Hours::from_hours(24.0));
}

TEST_CASE("Sanding sealer may be recoated after an hour", "[recipe]") {
  const RecipeBook book;
  // EVIDENCE: federal_specs A-A-1572: no lifting when recoated with itself after 1 h
  CHECK(hours_of(book, "nitrocellulose-sanding-sealer", Stage::kRecoat).high() <=
        Hours::from_hours(1.0));
}

TEST_CASE("Oil varnishes keep to what varnish specifications ask for", "[recipe]") {
  const RecipeBook book;
  // EVIDENCE: federal_specs A-A-1546A (rubbing varnish): touch 0.5 to 2 h, hard by 8 h, after-tack
  // gone and recoatable at 24 h
  const DurationRange touch = hours_of(book, "rubbing-varnish", Stage::kTackFree);
  CHECK(touch.low() >= Hours::from_hours(0.5));
  CHECK(touch.high() <= Hours::from_hours(2.0));
  CHECK(hours_of(book, "rubbing-varnish", Stage::kDryHard).high() <= Hours::from_hours(8.0));
  CHECK(hours_of(book, "rubbing-varnish", Stage::kRecoat).high() <= Hours::from_hours(24.0));
  // An oil-modified varnish is a related class, not the same.
  CHECK(overlaps(hours_of(book, "oil-modified-varnish", Stage::kTackFree), 0.5, 2.0));
  CHECK(holds(hours_of(book, "oil-modified-varnish", Stage::kRecoat), 24.0));
  CHECK(hours_of(book, "oil-modified-varnish", Stage::kTackFree).high() <= Hours::from_hours(24.0));
}

TEST_CASE("Oil filler is wiped off and left as the Navy manual says", "[recipe]") {
  const RecipeBook book;
  // EVIDENCE: federal_specs NAVEDTRA 14044: it stands 5 to 10 min, 24 h before the next finish
  const auto& wipe_off = product(book, "oil-grain-filler").wipe_off;
  REQUIRE(wipe_off);
  CHECK(wipe_off->opens.minutes() == Approx(5.0));
  CHECK(wipe_off->closes.minutes() >= 10.0);
  CHECK(hours_of(book, "oil-grain-filler", Stage::kRecoat).low() >= Hours::from_hours(24.0));
}

TEST_CASE("Catalysed lacquer and moisture-cure keep to what was read of their air", "[recipe]") {
  const RecipeBook book;
  // EVIDENCE: trade_finishing_web catalysed wood coatings 18 to 20 C at least, hardly any cure
  // below 14 C; moisture-cure urethane too slow below 30 % RH, bloom and foam above 80 %
  for (const auto* name : {"conversion-varnish", "precatalysed-lacquer"}) {
    INFO(name);
    CHECK(product(book, name).limits.temperature_min->value.celsius() >= 18.0);
  }
  const Limits& limits = product(book, "moisture-cure-polyurethane").limits;
  CHECK(limits.humidity_min->value.percent() >= 30.0);
  CHECK(limits.humidity_max->value.percent() <= 80.0);
}

TEST_CASE("A brushed varnish covers what a published list says", "[recipe]") {
  const RecipeBook book;
  // EVIDENCE: trade_finishing_web 500 square feet to the US gallon for brushed varnish
  const double published =
      Area::from_square_feet(500).square_metres() / Volume::from_us_quarts(4).litres();
  CHECK(published == Approx(12.27).epsilon(0.001));
  const Film& film = product(book, "oil-modified-varnish").film;
  CHECK(film.spread_low_m2_per_l <= published);
  CHECK(published <= film.spread_high_m2_per_l);
}

TEST_CASE("The reference film and the spread of a product are one and the same amount",
          "[recipe]") {
  const RecipeBook book;
  // EVIDENCE: definition 1 litre on 1 square metre is 1000 um. What is sprayed loses a part on the
  // way, so that the film may be thinner than the spread says, never thicker.
  for (const std::string& name : book.product_names()) {
    const Film& film = product(book, name).film;
    if (!film.reference_wet) {
      continue;
    }
    INFO(name);
    const double wet = film.reference_wet->value.micrometres();
    CHECK(wet <= 1000.0 / film.spread_low_m2_per_l);
    CHECK(wet >= 0.5 * 1000.0 / film.spread_high_m2_per_l);
  }
}

TEST_CASE("No sanding sequence skips", "[recipe]") {
  const RecipeBook book;
  std::size_t jumps = 0;
  for (const std::string& name : book.schedule_names()) {
    for (const ScheduleStep& step : schedule(book, name).steps) {
      for (std::size_t i = 1; i < step.grits.size(); ++i) {
        INFO(name << ": " << step.grits[i - 1] << " to " << step.grits[i]);
        // EVIDENCE: iso_6344 table of P grades (secondary copy)
        const double ratio = grain_sizes().at(step.grits[i - 1]) / grain_sizes().at(step.grits[i]);
        CHECK(ratio > 1.0);
        CHECK(ratio <= kMostGritRatio);
        ++jumps;
      }
    }
  }
  CHECK(jumps > 0);
}

TEST_CASE("Lacquer redissolves itself and lifts varnish", "[recipe]") {
  const RecipeBook book;
  // EVIDENCE: trade_finishing_web lacquer and shellac redissolve: no closing; lacquer solvents
  // wrinkle varnish; waterborne over oil stain waits 72 h; soap in sanding sealer under
  // polyurethane
  for (const auto* name : {"nitrocellulose-lacquer-spray", "dewaxed-shellac"}) {
    const PairRule rule = pair_of(book, name, name);
    REQUIRE(opens_without_abrading(rule));
    CHECK_FALSE(rule.intervals.front().closes);
  }
  CHECK(is_forbidden(pair_of(book, "oil-modified-varnish", "nitrocellulose-lacquer-spray")));
  CHECK(is_forbidden(pair_of(book, "nitrocellulose-sanding-sealer", "oil-modified-varnish")));
  const PairRule rule = pair_of(book, "oil-wiping-stain", "waterborne-clear");
  CHECK(rule.intervals.front().opens.whole().low() >= Hours::from_hours(72.0));
}

TEST_CASE("Every schedule begins with a sample board", "[recipe]") {
  const RecipeBook book;  // consistency check
  for (const std::string& name : book.schedule_names()) {
    INFO(name);
    CHECK(schedule(book, name).steps.front().kind == ScheduleStepKind::kSample);
  }
}

TEST_CASE("Every product has the stages that a plan asks for", "[recipe]") {
  const RecipeBook book;  // consistency check
  for (const std::string& name : book.product_names()) {
    INFO(name);
    for (const Stage stage : {Stage::kDustFree,
                              Stage::kRecoat,
                              Stage::kHandle,
                              Stage::kPrintFree,
                              Stage::kLightUse,
                              Stage::kFullCure}) {
      INFO(name_of(stage));
      CHECK(product(book, name).stage(stage) != nullptr);
    }
    const ProductKind kind = product(book, name).kind;
    if (kind == ProductKind::kClearFilm || kind == ProductKind::kEnamel ||
        kind == ProductKind::kSealer || kind == ProductKind::kFiller) {
      CHECK(product(book, name).stage(Stage::kSandable) != nullptr);
    }
  }
}

TEST_CASE("No stage comes before one that it follows", "[recipe]") {
  const RecipeBook book;  // consistency check
  // A recoat may come before dust-free or sandable: wet on wet, or bitten into.
  const std::vector<std::pair<Stage, Stage>> kOrder = {{Stage::kDustFree, Stage::kTackFree},
                                                       {Stage::kDustFree, Stage::kHandle},
                                                       {Stage::kTackFree, Stage::kHandle},
                                                       {Stage::kTackFree, Stage::kSandable},
                                                       {Stage::kTackFree, Stage::kDryHard},
                                                       {Stage::kDryHard, Stage::kPrintFree},
                                                       {Stage::kHandle, Stage::kPrintFree},
                                                       {Stage::kSandable, Stage::kFullCure},
                                                       {Stage::kRecoat, Stage::kFullCure},
                                                       {Stage::kPrintFree, Stage::kLightUse},
                                                       {Stage::kLightUse, Stage::kFullCure}};
  for (const std::string& name : book.product_names()) {
    for (const auto& [first, second] : kOrder) {
      const DryingStage* before = product(book, name).stage(first);
      const DryingStage* after = product(book, name).stage(second);
      if (before == nullptr || after == nullptr) {
        continue;
      }
      INFO(name << ": " << name_of(first) << " before " << name_of(second));
      CHECK(before->timing.whole().low() <= after->timing.whole().low());
      CHECK(before->timing.whole().high() <= after->timing.whole().high());
    }
  }
}

TEST_CASE("Woods have the pores and weight that the handbook gives", "[recipe]") {
  const RecipeBook book;
  // EVIDENCE: wood_handbook2010 Table 16-1 (pores) and specific gravity at 12 % moisture,
  // times 1.12
  const std::vector<std::tuple<std::string, Pores, double>> kPublished = {
      {"white-ash", Pores::kRing, 0.60},
      {"red-oak", Pores::kRing, 0.63},
      {"black-walnut", Pores::kSemiRing, 0.55},
      {"hard-maple", Pores::kDiffuse, 0.63},
      {"yellow-birch", Pores::kDiffuse, 0.62},
      {"yellow-poplar", Pores::kDiffuse, 0.42},
      {"eastern-white-pine", Pores::kSoftwood, 0.35},
      {"red-alder", Pores::kDiffuse, 0.41},
  };
  for (const auto& [name, pores, gravity] : kPublished) {
    INFO(name);
    const Result<const Species*> wood = book.species(name);
    REQUIRE(wood);
    CHECK((*wood)->pores == pores);
    CHECK((*wood)->density_kg_per_m3 == Approx(gravity * 1120.0).margin(1.0));
  }
}

}  // namespace coatwright
