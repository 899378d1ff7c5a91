#include "recipe/vapour_reader.h"

#include <set>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "recipe/nearest_names.h"
#include "recipe/recipe_names.h"

namespace coatwright {
namespace {

constexpr NumberRange kCelsiusRange = {-120.0, 300.0};
constexpr NumberRange kPercentRange = {0.0, 100.0, true};
constexpr double kResidue = 1e-9;  // of adding up decimal percents

/// What the lowest solids leave; nothing where the film has none.
std::optional<double> rest_beside_solids(const Film& film) {
  return film.solids ? std::optional(1.0 - film.solids->value.low / 100.0) : std::nullopt;
}

double read_volatile_share(TomlTable& table, const Film& film) {
  const auto rest = rest_beside_solids(film);
  if (rest && !table.has("volatile_percent")) {
    static_cast<void>(table.optional_number("volatile_percent", kPercentRange));  // known now
    return *rest;
  }
  return table.number("volatile_percent", kPercentRange) / 100.0;
}

const Substance* find_substance(TomlTable& table,
                                const std::string& name,
                                const Substances* substances) {
  if (substances == nullptr || !table.ok()) {
    return nullptr;
  }
  const auto found = substances->find(name);
  if (found != substances->end()) {
    return &found->second;
  }
  std::vector<std::string> names;
  for (const auto& [known, substance] : *substances) {
    names.push_back(known);
  }
  table.wrong(table.place("substance").error(no_such_name("substance", name, names)));
  return nullptr;
}

SolventShare read_share(TomlTable& table, const Substances* substances) {
  const std::string name = table.text("substance");
  const double percent = table.number("percent", kPercentRange);
  SolventShare share{find_substance(table, name, substances), name, percent / 100.0};
  table.finish();
  return share;
}

void read_shares(TomlTable& table, const Substances* substances, Vapour& vapour) {
  std::set<std::string> names;
  double sum = 0.0;
  for (TomlTable& each : table.tables("solvent", true)) {
    vapour.solvents.push_back(read_share(each, substances));
    sum += vapour.solvents.back().share;
    if (table.ok() && !names.insert(vapour.solvents.back().name).second) {
      each.wrong("substance", "each one once");
    }
    if (table.ok() && sum > 1.0 + kResidue) {
      each.wrong("percent", fmt::format("at most 100 together, not {:g}", sum * 100.0));
    }
  }
}

void read_fire_points(TomlTable& table, Vapour& vapour) {
  const auto read = [&](std::string_view key) -> std::optional<Known<Temperature>> {
    const auto celsius = table.optional_number(key, kCelsiusRange);
    return celsius ? std::optional(Known<Temperature>{
                         Temperature::from_celsius(*celsius), vapour.source, vapour.how})
                   : std::nullopt;
  };
  vapour.flash = read("flash_c");
  vapour.boiling = read("boiling_c");
  if (table.ok() && vapour.flash && vapour.boiling &&
      vapour.flash->value >= vapour.boiling->value) {
    table.wrong("flash_c", fmt::format("below boiling_c, {}", vapour.boiling->value.celsius()));
  }
}

}  // namespace

std::optional<Vapour> read_vapour(TomlTable& root, const Film& film, const Substances* substances) {
  std::optional<TomlTable> table = root.optional_table("vapour");
  if (!table) {
    return std::nullopt;
  }
  Vapour vapour;
  vapour.source = table->text("source");
  vapour.how = table->name("how", known_grades());
  vapour.note = table->text_or("note");
  read_fire_points(*table, vapour);
  vapour.volatile_share = read_volatile_share(*table, film);
  read_shares(*table, substances, vapour);
  table->finish();
  return vapour;
}

Vapour vapour_made_from(Vapour of_class, const Film& own_film) {
  of_class.volatile_share = rest_beside_solids(own_film).value_or(of_class.volatile_share);
  return of_class;
}

}  // namespace coatwright
