#include "recipe/product_reader.h"

#include <optional>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "recipe/care_reader.h"
#include "recipe/recipe_names.h"
#include "recipe/timing_reader.h"
#include "recipe/toml_reader.h"
#include "recipe/vapour_reader.h"

namespace coatwright {
namespace {

constexpr NumberRange kCelsiusRange = {-20.0, 60.0};
constexpr NumberRange kPercentRange = {0.0, 100.0};
constexpr NumberRange kKelvinRange = {0.0, 30.0};
constexpr NumberRange kFilmRange = {1.0, 2000.0};        // um, as parse_film_thickness
constexpr NumberRange kSpreadRange = {0.0, 50.0, true};  // m2/l
constexpr NumberRange kMinutesRange = {0.0, 1440.0, true};

const NamedValues<ProductKind>& known_kinds() {
  static const NamedValues<ProductKind> kKnown = {
      {name_of(ProductKind::kStain), ProductKind::kStain},
      {name_of(ProductKind::kFiller), ProductKind::kFiller},
      {name_of(ProductKind::kSealer), ProductKind::kSealer},
      {name_of(ProductKind::kClearFilm), ProductKind::kClearFilm},
      {name_of(ProductKind::kEnamel), ProductKind::kEnamel},
      {name_of(ProductKind::kOil), ProductKind::kOil},
      {name_of(ProductKind::kWax), ProductKind::kWax}};
  return kKnown;
}

void read_methods(TomlTable& table, Product& product) {
  for (const std::string_view name : table.names("methods", names_in(known_methods()))) {
    product.methods.push_back(value_named(known_methods(), name));
  }
}

void read_head(TomlTable& table, std::string_view expected_name, Product& product) {
  product.name = read_recipe_name(table, expected_name);
  product.title = table.text("title");
  product.layer = table.text_or("layer", product.name);
  product.made_from = table.text_or("made_from");
  product.kind = choice(table, "kind", known_kinds());
  product.carrier = table.text("carrier");
  read_methods(table, product);
  product.oxidises = table.flag("oxidises");
  product.raises_grain = table.flag("raises_grain");
  if (table.has("abrade_grit")) {
    product.abrade_grit = table.name("abrade_grit", known_grits());
  } else {
    static_cast<void>(table.text_or("abrade_grit"));  // counts it as known
  }
}

/// Volume solids: both ends and their source, or none.
std::optional<Sourced<PercentRange>> read_solids(TomlTable& table) {
  const auto low = table.optional_number("solids_low_percent", kPercentRange);
  const auto high = table.optional_number("solids_high_percent", kPercentRange);
  if (!low && !high) {
    return std::nullopt;
  }
  const PercentRange range{table.number("solids_low_percent", kPercentRange),
                           table.number("solids_high_percent", kPercentRange)};
  if (table.ok() && range.high < range.low) {
    table.wrong("solids_high_percent", fmt::format("at least solids_low_percent, {}", range.low));
  }
  return Sourced<PercentRange>{range, table.text("solids_source"), table.text_or("solids_note")};
}

void read_film(TomlTable table, Film& film) {
  const std::optional<double> wet = table.optional_number("reference_wet_um", kFilmRange);
  if (wet) {
    film.reference_wet = {FilmThickness::from_micrometres(*wet),
                          table.text("reference_source"),
                          table.text_or("reference_note")};
  }
  film.spread_low_m2_per_l = table.number("spread_low_m2_per_l", kSpreadRange);
  film.spread_high_m2_per_l = table.number("spread_high_m2_per_l", kSpreadRange);
  if (table.ok() && film.spread_high_m2_per_l < film.spread_low_m2_per_l) {
    table.wrong("spread_high_m2_per_l",
                fmt::format("at least spread_low_m2_per_l, {}", film.spread_low_m2_per_l));
  }
  film.spread_source = table.text("spread_source");
  film.solids = read_solids(table);
  if (const auto most = table.optional_number("total_dry_max_um", kFilmRange)) {
    film.total_dry_max = {FilmThickness::from_micrometres(*most),
                          table.text("total_dry_source"),
                          table.text_or("total_dry_note")};
  }
  table.finish();
}

void read_stages(TomlTable& table, Product& product) {
  for (TomlTable& stage : table.tables("stage", true)) {
    read_stage(stage, product.stages);
  }
}

void read_recoat(TomlTable& table, Product& product) {
  for (TomlTable& recoat : table.tables("recoat", false)) {
    const IntervalHours hours = read_interval(recoat, "", "");
    if (!table.ok()) {
      return;
    }
    Result<RecoatInterval> interval =
        with_laws(hours, product.name, product.stages, product.abrade_grit);
    if (!interval) {
      table.wrong(std::move(interval.error()));
      return;
    }
    product.recoat.push_back(std::move(*interval));
  }
}

WipeOff read_wipe_off(TomlTable table) {
  const double opens = table.number("opens_minutes", kMinutesRange);
  const double closes = table.number("closes_minutes", kMinutesRange);
  if (table.ok() && closes < opens) {
    table.wrong("closes_minutes", fmt::format("at least opens_minutes, {}", opens));
  }
  const RateLaw law = read_rate_law(table);
  WipeOff wipe_off{
      Hours::from_minutes(opens), Hours::from_minutes(closes), law, table.text("source")};
  table.finish();
  return wipe_off;
}

/// Reads { UNIT = .., source = "..", note = ".." }.
template <class T>
std::optional<Sourced<T>> read_limit(TomlTable& limits,
                                     std::string_view key,
                                     std::string_view unit,
                                     const NumberRange& range,
                                     T (*make)(double)) {
  std::optional<TomlTable> table = limits.optional_table(key);
  if (!table) {
    return std::nullopt;
  }
  const double value = table->number(unit, range);
  Sourced<T> limit{make(value), table->text("source"), table->text_or("note")};
  table->finish();
  return limit;
}

template <class T>
void check_order(TomlTable& limits,
                 std::string_view low_key,
                 const std::optional<Sourced<T>>& low,
                 std::string_view high_key,
                 const std::optional<Sourced<T>>& high) {
  if (limits.ok() && low && high && !(low->value < high->value)) {
    limits.wrong(limits.place(high_key).error(
        fmt::format("the limits leave no room; allowed: {} above {}", high_key, low_key)));
  }
}

/// The stage until which the limits hold: one that the product has.
Stage read_critical_stage(TomlTable& limits, const Stages& stages) {
  std::vector<std::string_view> own;
  for (const auto& [stage, data] : stages) {
    own.push_back(name_of(stage));
  }
  if (!limits.has("critical_stage") && stages.contains(Stage::kDustFree)) {
    static_cast<void>(limits.text_or("critical_stage"));  // counts it as known
    return Stage::kDustFree;
  }
  return value_named(known_stages(), limits.name("critical_stage", own));
}

void read_limits(TomlTable table, const Stages& stages, Limits& limits) {
  const auto celsius = [&table](std::string_view key) {
    return read_limit(table, key, "celsius", kCelsiusRange, &Temperature::from_celsius);
  };
  const auto percent = [&table](std::string_view key) {
    return read_limit(table, key, "percent", kPercentRange, &RelativeHumidity::from_percent);
  };
  const auto kelvin = [&table](std::string_view key) {
    return read_limit(table, key, "kelvin", kKelvinRange, &TemperatureDifference::from_kelvin);
  };
  limits.temperature_min = celsius("temperature_min");
  limits.temperature_max = celsius("temperature_max");
  limits.humidity_min = percent("humidity_min");
  limits.humidity_max = percent("humidity_max");
  limits.dew_point_spread_min = kelvin("dew_point_spread_min");
  limits.blush_spread = kelvin("blush_spread");
  limits.film_formation_min = celsius("film_formation_min");
  check_order(
      table, "temperature_min", limits.temperature_min, "temperature_max", limits.temperature_max);
  check_order(table, "humidity_min", limits.humidity_min, "humidity_max", limits.humidity_max);
  limits.critical_stage = read_critical_stage(table, stages);
  table.finish();
}

void read_hazards(TomlTable table, Hazards& hazards) {
  // Each must be said: a hazard that was forgotten must not read as one that is not there.
  hazards.rags_self_heat = table.flag("rags_self_heat");
  hazards.flammable = table.flag("flammable");
  hazards.nitrocellulose = table.flag("nitrocellulose");
  hazards.sprayed_mist = table.flag("sprayed_mist");
  hazards.isocyanates = table.flag("isocyanates");
  hazards.formaldehyde = table.flag("formaldehyde");
  hazards.catalysed = table.flag("catalysed");
  hazards.cautions = table.texts("cautions", false);
  hazards.source = table.text("source");
  table.finish();
}

/// Reads the rest once the stages, on which it leans, are in order.
void read_body(TomlTable& table, const Substances* substances, Product& product) {
  read_film(table.table("film"), product.film);
  product.vapour = read_vapour(table, product.film, substances);
  read_stages(table, product);
  if (!table.ok()) {
    return;
  }
  read_recoat(table, product);
  if (std::optional<TomlTable> wipe_off = table.optional_table("wipe_off")) {
    product.wipe_off = read_wipe_off(*wipe_off);
  }
  read_care(table, product);
  read_limits(table.table("limits"), product.stages, product.limits);
  read_hazards(table.table("hazards"), product.hazards);
}

}  // namespace

Result<Product> parse_product(std::string_view text,
                              const std::string& label,
                              std::string_view expected_name,
                              const Substances* substances) {
  Result<TomlFile> file = TomlFile::parse(text, label);
  if (!file) {
    return pass_on(std::move(file.error()));
  }
  Product product;
  TomlTable root = file->root();
  read_head(root, expected_name, product);
  read_body(root, substances, product);
  root.finish();
  if (file->error()) {
    return tl::unexpected(*file->error());
  }
  return product;
}

}  // namespace coatwright
