#include "cli/product_vapour.h"

#include <algorithm>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/quantity_text.h"
#include "cli/common.h"
#include "report/wrap.h"
#include "safety/fire_category.h"

namespace coatwright {
namespace {

using Json = nlohmann::ordered_json;

/// "[source, how]" or "[source, how: note]"; a grade that stands for a source is said once.
std::string cite(const std::string& source, const std::string& how, const std::string& note) {
  std::string as_source = how;
  std::replace(as_source.begin(), as_source.end(), ' ', '-');
  const std::string from = as_source == source ? how : fmt::format("{}, {}", source, how);
  return note.empty() ? fmt::format("[{}]", from) : fmt::format("[{}: {}]", from, note);
}

template <class T>
std::string cite(const Known<T>& known) {
  return cite(known.source, known.how, known.note);
}

double water_share(const Vapour& vapour) {
  double rest = 1.0;
  for (const SolventShare& one : vapour.solvents) {
    rest -= one.share;
  }
  constexpr double kResidue = 1e-9;  // of adding up decimal shares
  return rest < kResidue ? 0.0 : rest;
}

std::string_view words_for(Averaging averaging) {
  switch (averaging) {
    case Averaging::kShift:
      return "mean of a shift";
    case Averaging::kShortTerm:
      return "mean of 10 or 15 minutes";
    case Averaging::kCeiling:
      break;
  }
  return "at no time more than that";
}

/// The category, its statement and the flash point that it follows from.
std::string fire_line(const Product& product, UnitSystem units) {
  const Vapour& vapour = *product.vapour;
  const FireStatement* statement = statement_of(fire_category(product));
  const std::string flash = vapour.flash ? fmt::format("flash point from {} {}",
                                                       show_temperature(vapour.flash->value, units),
                                                       cite(*vapour.flash))
                                         : "no flash point as supplied";
  const std::string category =
      statement == nullptr
          ? "in none of the categories of flammable liquids, which does not say that it cannot burn"
          : fmt::format("category {}: {} {} ({})",
                        static_cast<int>(fire_category(product)),
                        statement->code,
                        statement->words,
                        statement->signal);
  return fmt::format("{}, {} {}", flash, category, cite("un_ghs_2_6", "derived", ""));
}

std::string amount_line(const Vapour& vapour) {
  return fmt::format(
      "up to {:.0f} % of its volume evaporates, with up to {:.0f} g of organic compounds from a "
      "litre as supplied, reckoned from the blend; the label's figure may leave water and some "
      "solvents out",
      vapour.volatile_share * 100.0,
      vapour.voc_g_per_l());
}

std::string solvent_line(const SolventShare& one) {
  std::string line = fmt::format("{} {:g} %", one.name, one.share * 100.0);
  if (one.substance == nullptr) {
    return line;
  }
  if (const auto* lowest = one.substance->lowest_explosive_limit()) {
    line +=
        fmt::format(": vapour burns from {:g} % in air {}", lowest->value.percent(), cite(*lowest));
  }
  if (const auto* limit = one.substance->strictest_limit()) {
    line += fmt::format("; {} {:g} ppm, {} {}",
                        limit->name,
                        limit->at_most.value.ppm(),
                        words_for(limit->averaging),
                        cite(limit->at_most));
  }
  return line;
}

template <class T>
Json source_of(const Known<T>& known) {
  return {{"source", known.source}, {"how", known.how}, {"note", known.note}};
}

Json solvent_as_json(const SolventShare& one) {
  constexpr int kDecimals = 4;
  Json json = {{"substance", one.name}, {"percent", rounded(one.share * 100.0, kDecimals)}};
  if (one.substance == nullptr) {
    return json;
  }
  json["cas"] = one.substance->cas;
  if (const auto* lowest = one.substance->lowest_explosive_limit()) {
    json["lower_explosive_limit"] = source_of(*lowest);
    json["lower_explosive_limit"]["percent"] = rounded(lowest->value.percent(), kDecimals);
  }
  if (const auto* limit = one.substance->strictest_limit()) {
    json["exposure_limit"] = source_of(limit->at_most);
    json["exposure_limit"]["name"] = limit->name;
    json["exposure_limit"]["averaging"] = name_of(limit->averaging);
    json["exposure_limit"]["ppm"] = rounded(limit->at_most.value.ppm(), kDecimals);
  }
  return json;
}

Json statement_as_json(FireCategory category) {
  const FireStatement* statement = statement_of(category);
  return statement == nullptr ? Json()
                              : Json{{"category", static_cast<int>(category)},
                                     {"code", statement->code},
                                     {"words", statement->words},
                                     {"signal", statement->signal},
                                     {"source", "un_ghs_2_6"}};
}

Json celsius_of(const std::optional<Known<Temperature>>& known) {
  return known ? Json(rounded(known->value.celsius(), 1)) : Json();
}

}  // namespace

std::string vapour_as_text(const Product& product, UnitSystem units) {
  if (!product.vapour) {
    return "";
  }
  const Vapour& vapour = *product.vapour;
  std::string text =
      "\nVapour\n" + wrap(fire_line(product, units), 2, 4) + wrap(amount_line(vapour), 2, 4) +
      wrap("of what evaporates, by volume " + cite(vapour.source, vapour.how, vapour.note), 2, 4);
  for (const SolventShare& one : vapour.solvents) {
    text += wrap(solvent_line(one), 4, 6);
  }
  if (const double water = water_share(vapour); water > 0.0) {
    text += wrap(fmt::format("water {:g} %", water * 100.0), 4, 6);
  }
  return text;
}

Json vapour_as_json(const Product& product) {
  if (!product.vapour) {
    return {};
  }
  const Vapour& vapour = *product.vapour;
  Json json = {{"flash_c", celsius_of(vapour.flash)},
               {"boiling_c", celsius_of(vapour.boiling)},
               {"flammable_liquid", statement_as_json(fire_category(product))},
               {"volatile_percent", rounded(vapour.volatile_share * 100.0, 1)},
               {"voc_g_per_l", rounded(vapour.voc_g_per_l(), 0)},
               {"solvents", Json::array()},
               {"water_percent", rounded(water_share(vapour) * 100.0, 2)}};
  for (const SolventShare& one : vapour.solvents) {
    json["solvents"].push_back(solvent_as_json(one));
  }
  json["source"] = vapour.source;
  json["how"] = vapour.how;
  json["note"] = vapour.note;
  return json;
}

}  // namespace coatwright
