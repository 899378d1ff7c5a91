#include "report/safety_figures.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/quantity_text.h"
#include "base/vapour_text.h"
#include "report/room_words.h"

namespace coatwright {
namespace {

/// So many lines of coats are read; of the others it is said how many there are.
constexpr std::size_t kMostGroups = 6;

std::string vapour_text(const CoatVapour& vapour, UnitSystem units) {
  return fmt::format("{} of vapour, {:.0f} g of solvent",
                     show_air_volume(vapour.vapour(), units),
                     vapour.voc_grams);
}

/// Coats that are told in one line: of one product on one piece, equally large.
using CoatGroup = std::vector<const SheetCoat*>;

bool are_alike(const SheetCoat& a, const SheetCoat& b) {
  constexpr double kSame = 0.005;  // L
  const CoatVapour& x = a.vapour.vapour;
  const CoatVapour& y = b.vapour.vapour;
  return a.piece == b.piece && x.product == y.product && a.at.has_value() == b.at.has_value() &&
         std::abs(x.used.litres() - y.used.litres()) < kSame;
}

std::string numbers_of(const CoatGroup& group) {
  if (group.front()->coat == 0) {
    return "";
  }
  std::vector<int> numbers;
  for (const SheetCoat* coat : group) {
    if (numbers.empty() || numbers.back() != coat->coat) {
      numbers.push_back(coat->coat);
    }
  }
  return fmt::format(", coat{} {}", numbers.size() > 1 ? "s" : "", fmt::join(numbers, ", "));
}

/// "Sun 7 Mar 10:53, 13:23, Mon 8 Mar 09:10, ".
std::string moments_of(const CoatGroup& group, const Zone& zone) {
  std::string text;
  std::string day;
  for (const SheetCoat* coat : group) {
    if (!coat->at) {
      return "";
    }
    const std::string moment = short_moment(shown_minute(*coat->at), zone);
    const std::size_t clock = moment.rfind(' ') + 1;
    const bool same_day = moment.substr(0, clock) == day;
    text += same_day ? moment.substr(clock) + ", " : moment + ", ";
    day = moment.substr(0, clock);
  }
  return text;
}

/// The highest that the room's air comes to with any of them.
std::string peak_of(const CoatGroup& group) {
  double of_explosive = 0.0;
  double of_exposure = 0.0;
  for (const SheetCoat* coat : group) {
    if (!coat->vapour.of_explosive_limit) {
      return "";
    }
    of_explosive = std::max(of_explosive, *coat->vapour.of_explosive_limit);
    of_exposure = std::max(of_exposure, *coat->vapour.of_exposure_limits);
  }
  return fmt::format("; the room's air at most at {} and at {}",
                     explosive_share_text(of_explosive),
                     exposure_text(of_exposure));
}

std::string group_text(const CoatGroup& group, const Zone& zone, UnitSystem units) {
  const SheetCoat& first = *group.front();
  const CoatVapour& vapour = first.vapour.vapour;
  std::string text = moments_of(group, zone);
  text += first.piece.empty() ? "" : first.piece + ": ";
  text += (text.empty() ? vapour.product->title : lower_first(vapour.product->title));
  return text + numbers_of(group) +
         fmt::format(": {} {}give off {}",
                     show_volume(vapour.used, units),
                     group.size() > 1 ? "each " : "",
                     vapour_text(vapour, units)) +
         peak_of(group) + ".";
}

std::string litre_text(const Product& product, UnitSystem units) {
  constexpr Temperature kShop = Temperature::from_celsius(20.0);
  const CoatVapour litre = vapour_of(product, Volume::from_litres(1.0), kShop);
  return fmt::format("{}: {} give off {}; against fire that wants {} of fresh air.",
                     product.title,
                     show_volume(litre.used, units),
                     vapour_text(litre, units),
                     show_air_volume(litre.air_against_fire(), units));
}

/// What of a product no figure clears a room of; empty: nothing.
std::string never_cleared(const Product& product) {
  if (product.hazards.isocyanates) {
    return product.hazards.formaldehyde ? "isocyanates and formaldehyde" : "isocyanates";
  }
  return product.hazards.formaldehyde ? "formaldehyde" : "";
}

bool any_flammable(const SafetySheet& sheet) {
  return std::any_of(sheet.products.begin(), sheet.products.end(), [](const Product* product) {
    return product->hazards.flammable;
  });
}

std::string over_text(const SafetyFigures& figures) {
  const auto passes = [](const SheetCoat& coat) {
    return coat.vapour.of_explosive_limit.value_or(0.0) > kShareOfExplosiveLimit;
  };
  if (std::none_of(figures.coats.begin(), figures.coats.end(), passes)) {
    return "";
  }
  return figures.fan_needed
             ? fmt::format(
                   "THE ROOM CANNOT CARRY IT as it is: a fan rated for flammable vapour of "
                   "{:.0f} m3/h ({:.0f} cfm) would by calculation, or fewer pieces at a time.",
                   figures.fan_needed->cubic_metres_per_hour(),
                   figures.fan_needed->cfm())
             : "THE ROOM CANNOT CARRY IT as it is: fewer pieces at a time, or a larger room.";
}

std::vector<CoatGroup> groups_of(const std::vector<SheetCoat>& coats) {
  std::vector<CoatGroup> groups;
  for (const SheetCoat& coat : coats) {
    const auto found = std::find_if(groups.begin(), groups.end(), [&](const CoatGroup& group) {
      return are_alike(*group.front(), coat);
    });
    if (found == groups.end()) {
      groups.push_back({&coat});
    } else {
      found->push_back(&coat);
    }
  }
  for (CoatGroup& group : groups) {
    std::stable_sort(group.begin(), group.end(), [](const SheetCoat* a, const SheetCoat* b) {
      return a->at < b->at;
    });
  }
  return groups;
}

void add_coats(const SafetyFigures& figures,
               const Zone& zone,
               UnitSystem units,
               std::vector<std::string>& lines) {
  std::vector<CoatGroup> groups = groups_of(figures.coats);
  std::stable_sort(groups.begin(), groups.end(), [](const CoatGroup& a, const CoatGroup& b) {
    return a.front()->vapour.vapour.vapour() > b.front()->vapour.vapour.vapour();
  });
  std::size_t left_out = 0;
  for (std::size_t i = kMostGroups; i < groups.size(); ++i) {
    left_out += groups[i].size();
  }
  groups.resize(std::min(groups.size(), kMostGroups));
  std::stable_sort(groups.begin(), groups.end(), [](const CoatGroup& a, const CoatGroup& b) {
    return a.front()->at < b.front()->at;
  });
  for (const CoatGroup& group : groups) {
    lines.push_back(group_text(group, zone, units));
  }
  if (left_out > 0) {
    lines.push_back(
        fmt::format("{} more coat{}, each of less vapour.", left_out, left_out == 1 ? "" : "s"));
  }
}

}  // namespace

std::vector<std::string> figure_lines(const SafetyFigures& figures,
                                      const SafetySheet& sheet,
                                      const Zone& zone,
                                      UnitSystem units) {
  std::vector<std::string> lines;
  if (const std::string over = over_text(figures); !over.empty()) {
    lines.push_back(over);
  }
  add_coats(figures, zone, units, lines);
  for (const Product* product : sheet.products) {
    if (figures.coats.empty() && product->vapour && product->vapour->voc_g_per_l() > 0.0) {
      lines.push_back(litre_text(*product, units));
    }
  }
  for (const Product* product : sheet.products) {
    if (const std::string what = never_cleared(*product); !what.empty()) {
      lines.push_back(
          fmt::format("{} gives off {}: no figure of its solvent, no reading of one part "
                      "of it and no smell says when its air may be breathed.",
                      product->title,
                      what));
    }
  }
  if (lines.empty()) {
    return lines;
  }
  lines.push_back(room_text(figures.room, any_flammable(sheet), units));
  for (const FanRun& run : figures.runs) {
    lines.push_back(run_text(run, zone));
  }
  lines.emplace_back(kByCalculation);
  return lines;
}

std::vector<std::string> label_lines(const SafetySheet& sheet, UnitSystem units) {
  std::vector<std::string> lines;
  for (const Product* product : sheet.products) {
    if (product->hazards.rags_self_heat) {
      lines.push_back(product->title +
                      ": what is wet with it heats up by itself, whatever its flash point.");
    }
  }
  for (const Product* product : sheet.products) {
    const FireStatement* statement = statement_of(fire_category(*product));
    if (statement == nullptr) {
      continue;
    }
    lines.push_back(fmt::format("{}: flash point from {}, category {}, {} {}: {} ({}).",
                                product->title,
                                show_whole_temperature(product->vapour->flash->value, units),
                                static_cast<int>(fire_category(*product)),
                                statement->signal,
                                statement->code,
                                statement->words,
                                product->vapour->flash->how));
  }
  return lines;
}

std::vector<std::string> storage_lines(const std::vector<StoredLiquid>& liquids,
                                       bool in_cabinet,
                                       UnitSystem units) {
  std::vector<std::string> lines;
  double litres = 0.0;
  for (const StoredLiquid& one : liquids) {
    litres += one.category == FireCategory::kNone ? 0.0 : one.amount.litres();
  }
  if (litres <= 0.0) {
    return lines;
  }
  lines.push_back(fmt::format("{} of liquids that burn for these coats, {}.",
                              show_volume(Volume::from_litres(litres), units),
                              in_cabinet ? "in a cabinet for them" : "outside a cabinet"));
  for (const StorageBreach& breach : storage_breaches(liquids)) {
    lines.push_back(fmt::format("TOO MUCH, {}: {} stand there, {} are the most ({}, {}).",
                                breach.what,
                                show_volume(breach.stands, units),
                                show_volume(breach.at_most, units),
                                breach.rule,
                                breach.how));
  }
  lines.emplace_back(kStorageReminder);
  return lines;
}

}  // namespace coatwright
