#include "recipe/substance_reader.h"

#include <utility>

#include <fmt/format.h>

#include "recipe/recipe_names.h"
#include "recipe/toml_reader.h"

namespace coatwright {
namespace {

constexpr NumberRange kMolarMassRange = {2.0, 1000.0};     // g/mol
constexpr NumberRange kDensityRange = {300.0, 3000.0};     // kg/m3
constexpr NumberRange kCelsiusRange = {-200.0, 500.0};     // C
constexpr NumberRange kPercentRange = {0.0, 100.0, true};  // % of the air by volume
constexpr NumberRange kPpmRange = {0.0, 1'000'000.0, true};

const NamedValues<Averaging>& known_averagings() {
  static const NamedValues<Averaging> kKnown =
      named({Averaging::kShift, Averaging::kShortTerm, Averaging::kCeiling});
  return kKnown;
}

/// Reads a figure that has a table of its own: { UNIT, source, how, note }.
template <class T>
Known<T> read_figure(TomlTable& table,
                     std::string_view unit,
                     const NumberRange& range,
                     T (*make)(double)) {
  const double value = table.number(unit, range);
  const std::string source = table.text("source");
  const std::string_view how = table.name("how", known_grades());
  return {make(value), source, std::string(how), table.text_or("note")};
}

/// Reads WHAT_UNIT with WHAT_source and WHAT_how, where it is there.
template <class T>
std::optional<Known<T>> read_optional_figure(TomlTable& table,
                                             const std::string& what,
                                             std::string_view unit,
                                             const NumberRange& range,
                                             T (*make)(double)) {
  const auto value = table.optional_number(fmt::format("{}_{}", what, unit), range);
  if (!value) {
    return std::nullopt;
  }
  const std::string source = table.text(what + "_source");
  const std::string_view how = table.name(what + "_how", known_grades());
  return Known<T>{make(*value), source, std::string(how), table.text_or(what + "_note")};
}

ExposureLimit read_limit(TomlTable& table) {
  ExposureLimit limit{
      table.text("name"),
      choice(table, "averaging", known_averagings()),
      read_figure(table, "ppm", kPpmRange, &VapourFraction::from_ppm),
  };
  table.finish();
  return limit;
}

void read_figures(TomlTable& table, Substance& substance) {
  substance.molar_mass =
      MolarMass::from_g_per_mol(table.number("molar_mass_g_per_mol", kMolarMassRange));
  substance.molar_mass_source = table.text("molar_mass_source");
  substance.molar_mass_how = table.name("molar_mass_how", known_grades());
  substance.density =
      read_optional_figure(table, "density", "kg_per_m3", kDensityRange, &Density::from_kg_per_m3);
  substance.flash =
      read_optional_figure(table, "flash", "c", kCelsiusRange, &Temperature::from_celsius);
  substance.boiling =
      read_optional_figure(table, "boiling", "c", kCelsiusRange, &Temperature::from_celsius);
  if (table.ok() && substance.flash && substance.boiling &&
      substance.flash->value >= substance.boiling->value) {
    table.wrong("flash_c", fmt::format("below boiling_c, {}", substance.boiling->value.celsius()));
  }
  substance.idlh = read_optional_figure(table, "idlh", "ppm", kPpmRange, &VapourFraction::from_ppm);
}

void read_substance(TomlTable& table, Substances& substances) {
  Substance substance;
  substance.name = table.text("name");
  substance.cas = table.text("cas");
  read_figures(table, substance);
  for (TomlTable& each : table.tables("lower_explosive_limits", false)) {
    substance.lower_explosive_limits.push_back(
        read_figure(each, "percent", kPercentRange, &VapourFraction::from_percent));
    each.finish();
  }
  for (TomlTable& each : table.tables("limits", false)) {
    substance.limits.push_back(read_limit(each));
  }
  // Must be said: what was forgotten must not read as harmless.
  substance.never_cleared = table.flag("never_cleared");
  substance.organic = table.flag("organic");
  substance.note = table.text_or("note");
  table.finish();
  if (table.ok() && !substances.emplace(substance.name, substance).second) {
    table.wrong("name", "each one once in the file");
  }
}

}  // namespace

Result<Substances> parse_substances(std::string_view text, const std::string& label) {
  Result<TomlFile> file = TomlFile::parse(text, label);
  if (!file) {
    return pass_on(std::move(file.error()));
  }
  Substances substances;
  TomlTable root = file->root();
  for (TomlTable& table : root.tables("substance", true)) {
    read_substance(table, substances);
  }
  root.finish();
  if (file->error()) {
    return tl::unexpected(*file->error());
  }
  return substances;
}

Substances with_own(Substances built_in, Substances own) {
  for (auto& [name, substance] : own) {
    Substance& kept = built_in[name];
    substance.never_cleared = substance.never_cleared || kept.never_cleared;
    kept = std::move(substance);
  }
  return built_in;
}

}  // namespace coatwright
