#include "recipe/care_reader.h"

#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "recipe/timing_reader.h"

namespace coatwright {
namespace {

constexpr NumberRange kPartsRange = {0.0, 1000.0, true};
constexpr NumberRange kMinutesRange = {0.0, 480.0};
constexpr NumberRange kMonthsRange = {0.0, 240.0, true};
constexpr NumberRange kCoatsRange = {1.0, 20.0};

const NamedValues<PreparationCase>& known_cases() {
  static const NamedValues<PreparationCase> kKnown = {
      {name_of(PreparationCase::kAlways), PreparationCase::kAlways},
      {name_of(PreparationCase::kFlakes), PreparationCase::kFlakes},
      {name_of(PreparationCase::kColdCan), PreparationCase::kColdCan}};
  return kKnown;
}

void read_parts(TomlTable& table, Mix& mix) {
  for (TomlTable& part : table.tables("part", true)) {
    const Mix::Part read{part.text("name"), part.number("parts", kPartsRange)};
    part.finish();
    mix.parts.push_back(read);
  }
  if (table.ok() && mix.parts.size() < 2) {
    table.wrong(table.place("part").error("found one part; allowed: two or more"));
  }
  mix.by_mass = table.name("by", {"volume", "mass"}) == "mass";
  mix.parts_source = table.text("parts_source");
}

void read_pot_life(TomlTable& table, Mix& mix) {
  mix.pot_life = read_optional_hours(table, "pot_life_");
  if (!mix.pot_life) {
    return;
  }
  mix.pot_life_law = read_rate_law(table);
  mix.pot_life_source = table.text("pot_life_source");
}

void read_induction(TomlTable& table, Mix& mix) {
  if (const auto minutes = table.optional_number("induction_minutes", kMinutesRange)) {
    mix.induction = Hours::from_minutes(*minutes);
    mix.induction_source = table.text("induction_source");
  }
}

Mix read_mix(TomlTable table) {
  Mix mix;
  read_parts(table, mix);
  read_pot_life(table, mix);
  read_induction(table, mix);
  table.finish();
  return mix;
}

Preparation read_preparation(TomlTable& table) {
  Preparation preparation{choice(table, "when", known_cases()),
                          table.text("text"),
                          table.number_or("minutes", 0.0, kMinutesRange),
                          read_hours(table),
                          table.text("source")};
  table.finish();
  return preparation;
}

std::optional<Sourced<double>> read_months(TomlTable& table, std::string_view key) {
  std::optional<TomlTable> span = table.optional_table(key);
  if (!span) {
    return std::nullopt;
  }
  const double months = span->number("months", kMonthsRange);
  Sourced<double> read{months, span->text("source"), span->text_or("note")};
  span->finish();
  return read;
}

UsualCoats read_usual_coats(TomlTable table) {
  UsualCoats coats;
  coats.low = table.count_or("low", 1, kCoatsRange);
  coats.high = table.count_or("high", coats.low, kCoatsRange);
  if (table.ok() && coats.high < coats.low) {
    table.wrong("high", fmt::format("at least low, {}", coats.low));
  }
  coats.source = table.text("source");
  table.finish();
  return coats;
}

}  // namespace

void read_care(TomlTable& root, Product& product) {
  if (std::optional<TomlTable> mix = root.optional_table("mix")) {
    product.mix = read_mix(*mix);
  }
  for (TomlTable& preparation : root.tables("preparation", false)) {
    product.preparations.push_back(read_preparation(preparation));
  }
  if (std::optional<TomlTable> storage = root.optional_table("storage")) {
    product.storage.shelf_months = read_months(*storage, "shelf");
    product.storage.opened_months = read_months(*storage, "opened");
    storage->finish();
  }
  if (std::optional<TomlTable> coats = root.optional_table("usual_coats")) {
    product.usual_coats = read_usual_coats(*coats);
  }
}

}  // namespace coatwright
