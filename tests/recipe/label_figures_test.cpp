#include "recipe/label_figures.h"

#include <cmath>

#include <catch2/catch.hpp>

#include "recipe/recipe_book.h"
#include "recipe/recipe_texts.h"

using namespace coatwright;

namespace {

Typed<HoursRange> hours(const char* text) {
  return {parse_hours_range(text).value(), text};
}

Typed<TemperatureAndHumidity> air(const char* text) {
  return {parse_air(text).value(), text};
}

LabelFigures label_named(const std::string& name) {
  LabelFigures label;
  label.name = name;
  return label;
}

Result<Product> try_made(const std::string& of_class, const LabelFigures& label) {
  const RecipeBook book;
  const auto text =
      product_text_from_label(**book.product(of_class), *book.product_text(of_class), label);
  if (!text) {
    return tl::unexpected(text.error());
  }
  return RecipeBook::read_product(*text, label.name + ".toml");
}

Product made(const std::string& of_class, const LabelFigures& label) {
  auto product = try_made(of_class, label);
  if (!product) {
    FAIL(product.error().text());
  }
  return std::move(*product);
}

/// A stage's hours in steady air: each phase at its own rate.
HoursRange in_air(const Product& product, Stage stage, const char* text) {
  const auto at = parse_air(text).value();
  double low = 0;
  double high = 0;
  for (const Phase& phase : product.stage(stage)->timing.phases) {
    const double rate = phase.law.rate(at.temperature, at.humidity);
    low += phase.duration.low().hours() / rate;
    high += phase.duration.high().hours() / rate;
  }
  return {Hours::from_hours(low), Hours::from_hours(high)};
}

template <class T>
void check_refused(const Result<T>& result,
                   const std::vector<std::string>& parts,
                   ErrorCode code = ErrorCode::kInputFile) {
  REQUIRE_FALSE(result);
  CHECK(result.error().code == code);
  for (const std::string& part : parts) {
    CHECK_THAT(result.error().text(), Catch::Contains(part));
  }
}

double high_of(const Product& product, Stage stage) {
  return product.stage(stage)->timing.whole().high().hours();
}
double low_of(const Product& product, Stage stage) {
  return product.stage(stage)->timing.whole().low().hours();
}

}  // namespace

TEST_CASE("A varnish label at 60 F is brought to 23 C by its oxidation", "[recipe]") {
  // EVIDENCE: freiesleben1977: exp(E/R (1/T_ref - 1/T)), reckoned here with E = 50 kJ/mol and
  // R = 8.314 J/(mol K), independently of the program's rate.
  const double kelvin = (60.0 - 32.0) / 1.8 + 273.15;
  const double rate = std::exp(50000.0 / 8.314 * (1.0 / 296.15 - 1.0 / kelvin));
  LabelFigures label = label_named("shop-varnish");
  label.air = air("60F,50%");
  label.stages.emplace(Stage::kRecoat, hours("6h-8h"));
  const Product product = made("oil-modified-varnish", label);
  CHECK(low_of(product, Stage::kRecoat) == Approx(6.0 * rate).epsilon(1e-4));
  CHECK(high_of(product, Stage::kRecoat) == Approx(8.0 * rate).epsilon(1e-4));
}

TEST_CASE("A shellac label at 62 F is brought to 23 C by the vapour pressure of alcohol",
          "[recipe]") {
  // EVIDENCE: poling2001 Antoine constants of ethanol, log10 of bar, T in K, as it prints them:
  // 5.33675, 1648.22, 230.918 C; the quotient of the pressures is reckoned here.
  const double celsius = (62.0 - 32.0) / 1.8;
  const auto pressure = [](double c) { return std::pow(10.0, 5.33675 - 1648.22 / (c + 230.918)); };
  const double rate = pressure(celsius) / pressure(23.0);
  LabelFigures label = label_named("shop-shellac");
  label.air = air("62F,50%");
  label.stages.emplace(Stage::kRecoat, hours("1h-2h"));
  const Product product = made("dewaxed-shellac", label);
  CHECK(low_of(product, Stage::kRecoat) == Approx(1.0 * rate).epsilon(1e-3));
  CHECK(high_of(product, Stage::kRecoat) == Approx(2.0 * rate).epsilon(1e-3));
}

TEST_CASE("In the air of its label a product takes the label's hours", "[recipe]") {
  const char* at = GENERATE("60F,50%", "70F,50%", "30C,70%", "23C,50%");
  const char* typed = GENERATE("2h-4h", "2h", "6h-8h");
  const std::string of_class = GENERATE(as<std::string>(),
                                        "waterborne-clear",
                                        "oil-modified-varnish",
                                        "wiping-varnish",
                                        "oil-wiping-stain");
  CAPTURE(of_class, at, typed);
  LabelFigures label = label_named("own");
  label.air = air(at);
  label.stages.emplace(Stage::kRecoat, hours(typed));
  const Product product = made(of_class, label);
  const HoursRange there = in_air(product, Stage::kRecoat, at);
  const HoursRange on_label = parse_hours_range(typed).value();
  CHECK(there.low.hours() == Approx(on_label.low.hours()).epsilon(1e-5));
  CHECK(there.high.hours() == Approx(on_label.high.hours()).epsilon(1e-5));
  CHECK(product.stage(Stage::kRecoat)->source == "label");
  CHECK(product.stage(Stage::kRecoat)->note == typed + std::string(" at ") + at);
}

TEST_CASE("A single figure of a label is both ends, so that nothing opens before it", "[recipe]") {
  LabelFigures label = label_named("own");
  label.stages.emplace(Stage::kRecoat, hours("2h"));
  const Product product = made("waterborne-clear", label);
  CHECK(low_of(product, Stage::kRecoat) == Approx(2.0));
  CHECK(high_of(product, Stage::kRecoat) == Approx(2.0));
  CHECK(low_of(product, Stage::kRecoat) >= 2.0);
  CHECK(product.stage(Stage::kRecoat)->note == "2h, no air named");
}

TEST_CASE("All of the class stays that the label does not say", "[recipe]") {
  const RecipeBook book;
  for (const std::string& name : book.product_names()) {
    CAPTURE(name);
    const Product& of_class = **book.product(name);
    LabelFigures label = label_named("own");
    label.coverage = Typed<NumbersRange>{{9.0, 11.0}, "9-11m2/L"};
    const Product product = made(name, label);
    CHECK(product.made_from == name);
    CHECK(product.layer == of_class.layer);
    CHECK(product.kind == of_class.kind);
    CHECK(product.methods == of_class.methods);
    CHECK(product.film.spread_low_m2_per_l == 9.0);
    CHECK(product.film.spread_source == "label");
    CHECK(product.stages.size() == of_class.stages.size());
    for (const auto& [stage, drying] : of_class.stages) {
      CAPTURE(name_of(stage));
      CHECK(product.stage(stage)->timing.whole() == drying.timing.whole());
      CHECK(product.stage(stage)->timing.description() == drying.timing.description());
      CHECK(product.stage(stage)->source == drying.source);
    }
    CHECK(product.recoat.size() == of_class.recoat.size());
    CHECK(product.limits.temperature_min.has_value() ==
          of_class.limits.temperature_min.has_value());
  }
}

TEST_CASE("No label takes a hazard or a caution away", "[recipe]") {
  const RecipeBook book;
  for (const std::string& name : book.product_names()) {
    CAPTURE(name);
    const Product& of_class = **book.product(name);
    if (of_class.stage(Stage::kRecoat) == nullptr) {
      continue;
    }
    LabelFigures label = label_named("own");
    label.far_off = true;
    label.stages.emplace(Stage::kRecoat, hours("20min"));
    label.temperature = Typed<TemperatureRange>{
        {Temperature::from_celsius(1.0), Temperature::from_celsius(40.0)}, "1C-40C"};
    const Hazards hazards = made(name, label).hazards;
    const Hazards& usual = of_class.hazards;
    CHECK(hazards.rags_self_heat == usual.rags_self_heat);
    CHECK(hazards.flammable == usual.flammable);
    CHECK(hazards.nitrocellulose == usual.nitrocellulose);
    CHECK(hazards.sprayed_mist == usual.sprayed_mist);
    CHECK(hazards.isocyanates == usual.isocyanates);
    CHECK(hazards.formaldehyde == usual.formaldehyde);
    CHECK(hazards.catalysed == usual.catalysed);
    CHECK(hazards.cautions == usual.cautions);
  }
}

// Consistency check: the order of the class's stages is this project's own.
TEST_CASE("Stages that a label leaves out stay in the order of the class", "[recipe]") {
  const RecipeBook book;
  const char* typed = GENERATE("30min", "1h-2h", "12h", "48h-96h");
  for (const std::string& name : book.product_names()) {
    const Product& of_class = **book.product(name);
    if (of_class.stage(Stage::kRecoat) == nullptr) {
      continue;
    }
    LabelFigures label = label_named("own");
    label.far_off = true;
    label.stages.emplace(Stage::kRecoat, hours(typed));
    const Product product = made(name, label);
    const DurationRange recoat = of_class.stage(Stage::kRecoat)->timing.whole();
    for (const auto& [stage, drying] : of_class.stages) {
      CAPTURE(name, typed, name_of(stage));
      const DurationRange whole = drying.timing.whole();
      if (stage != Stage::kRecoat && whole.low() > recoat.low() && whole.high() > recoat.high()) {
        CHECK(low_of(product, stage) >= low_of(product, Stage::kRecoat) - 1e-6);
        CHECK(high_of(product, stage) >= high_of(product, Stage::kRecoat) - 1e-6);
      }
      if (stage != Stage::kRecoat && whole.low() < recoat.low() && whole.high() < recoat.high()) {
        CHECK(low_of(product, stage) <= low_of(product, Stage::kRecoat) + 1e-6);
        CHECK(high_of(product, stage) <= high_of(product, Stage::kRecoat) + 1e-6);
      }
      CHECK((product.stage(stage)->source == "judgement" ||
             product.stage(stage)->source == drying.source || stage == Stage::kRecoat));
    }
  }
}

TEST_CASE("A label's closing is never later than the label, in any air", "[recipe]") {
  LabelFigures label = label_named("own");
  label.stages.emplace(Stage::kRecoat, hours("4h-6h"));
  label.recoat_by = hours("24h");
  const auto closing = [&](const char* at) {
    label.air = air(at);
    const Product product = made("oil-modified-varnish", label);
    REQUIRE(product.recoat.front().closes);
    CHECK(product.recoat.front().condition == RecoatCondition::kNone);
    CHECK(product.recoat.front().source == "label");
    return product.recoat.front().closes->whole().high().hours();
  };
  CHECK(closing("23C,50%") == Approx(24.0));
  CHECK(closing("30C,50%") == Approx(24.0));
  // EVIDENCE: freiesleben1977, as above, for 60 F = 288.706 K
  const double rate = std::exp(50000.0 / 8.314 * (1.0 / 296.15 - 1.0 / 288.706));
  CHECK(closing("60F,50%") == Approx(24.0 * rate).epsilon(1e-3));
}

TEST_CASE("After the label's closing the coat is abraded", "[recipe]") {
  LabelFigures label = label_named("own");
  label.recoat_by = hours("6h");
  const Product product = made("dewaxed-shellac", label);  // the class never closes
  REQUIRE(product.recoat.size() == 2);
  CHECK(product.recoat[0].closes->whole().high().hours() == Approx(6.0));
  CHECK(product.recoat[1].condition == RecoatCondition::kAbrade);
  CHECK_FALSE(product.recoat[1].closes);
  label.recoat_by = hours("1h");
  check_refused(try_made("dewaxed-shellac", label), {"--recoat-by"}, ErrorCode::kUsage);
}

TEST_CASE("Openings of the class's own intervals go with the label's recoat", "[recipe]") {
  LabelFigures label = label_named("own");
  label.stages.emplace(Stage::kRecoat, hours("2h-4h"));
  const Product product = made("oil-modified-varnish", label);
  const RecoatInterval& abrade = product.recoat.at(1);
  // The class opens for abrading at 6 to 24 h, no earlier than its recoat of 4 to 24 h.
  CHECK(abrade.opens.whole().low().hours() >= 2.0);
  CHECK(abrade.opens.whole().high().hours() == Approx(4.0));
  CHECK(abrade.source == "judgement");
}

TEST_CASE("A closing that a faster label does not give comes sooner, behind its opening",
          "[recipe]") {
  LabelFigures label = label_named("own");
  label.stages.emplace(Stage::kRecoat, hours("7h"));
  const RecoatInterval window = made("oil-modified-varnish", label).recoat.at(0);
  // The class closes at 12 to 24 h; the middle of its recoat is the root of 4 x 24 h.
  CHECK(window.closes->whole().high().hours() == Approx(24.0 * 7.0 / std::sqrt(4.0 * 24.0)));
  CHECK(window.closes->whole().low().hours() > 7.0);
}

TEST_CASE("A label's figures out of order are refused", "[recipe]") {
  LabelFigures label = label_named("own");
  label.stages.emplace(Stage::kRecoat, hours("8h"));
  label.stages.emplace(Stage::kTackFree, hours("9h"));
  check_refused(try_made("oil-modified-varnish", label),
                {"--recoat 8h", "shorter than --touch 9h"},
                ErrorCode::kUsage);
}

TEST_CASE("A figure far from the class's is refused unless it is meant so", "[recipe]") {
  LabelFigures label = label_named("own");
  label.stages.emplace(Stage::kRecoat, hours("24d"));  // for 24 h
  check_refused(try_made("oil-modified-varnish", label),
                {"--recoat 24d", "factor 20", "--force"},
                ErrorCode::kOutOfRange);
  label.far_off = true;
  CHECK(high_of(made("oil-modified-varnish", label), Stage::kRecoat) == Approx(576.0));
  LabelFigures thin = label_named("own");
  thin.coverage = Typed<NumbersRange>{{0.3, 0.4}, "0.3-0.4m2/L"};
  check_refused(
      try_made("oil-modified-varnish", thin), {"--coverage", "--force"}, ErrorCode::kOutOfRange);
}

TEST_CASE("What the class has no place for is refused", "[recipe]") {
  LabelFigures label = label_named("own");
  label.pot_life = hours("4h");
  check_refused(try_made("oil-modified-varnish", label), {"not mixed"}, ErrorCode::kUsage);
  LabelFigures cold = label_named("own");
  cold.air = air("5C,50%");
  cold.stages.emplace(Stage::kRecoat, hours("24h"));
  check_refused(try_made("oil-modified-varnish", cold),
                {"--in-air", "--temperature"},
                ErrorCode::kOutOfRange);
  cold.temperature = Typed<TemperatureRange>{
      {Temperature::from_celsius(4.0), Temperature::from_celsius(32.0)}, "4C-32C"};
  CHECK(made("oil-modified-varnish", cold).limits.temperature_min->source == "label");
  check_refused(try_made("oil-modified-varnish", label_named("No Name")),
                {"--name 'No Name'", "lower-case"},
                ErrorCode::kUsage);
}

TEST_CASE("A mixed class takes the label's ratio, pot life and standing time", "[recipe]") {
  const std::string text =
      test::with(test::kProduct,
                 "[limits]",
                 "[mix]\nby = \"volume\"\nparts_source = \"judgement\"\n"
                 "pot_life_low_hours = 3\npot_life_high_hours = 4\nmechanism = \"two-part\"\n"
                 "pot_life_source = \"judgement\"\n"
                 "[[mix.part]]\nname = \"base\"\nparts = 4\n"
                 "[[mix.part]]\nname = \"hardener\"\nparts = 1\n\n[limits]");
  const Product of_class = RecipeBook::read_product(text, "test").value();
  LabelFigures label = label_named("own");
  label.air = air("30C,50%");
  label.mix = Typed<std::vector<double>>{{10.0, 1.0}, "10:1"};
  label.pot_life = hours("2h");
  label.induction = hours("15min");
  const auto made_text = product_text_from_label(of_class, text, label);
  REQUIRE(made_text);
  const Product product = RecipeBook::read_product(*made_text, "own.toml").value();
  CHECK(product.mix->parts[0].parts == 10.0);
  CHECK(product.mix->parts_source == "label");
  CHECK(product.mix->pot_life->high().hours() == Approx(2.0));  // never later than the label
  CHECK(product.mix->induction.minutes() == Approx(15.0));
  label.mix->value = {1.0, 1.0, 1.0};
  check_refused(product_text_from_label(of_class, text, label), {"2 parts"}, ErrorCode::kUsage);
}
