#include "report/quantities_page.h"

#include <cmath>

#include <fmt/format.h>

#include "base/quantity_text.h"
#include "quantity/reckoning.h"
#include "report/text_table.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

constexpr std::size_t kLabelWidth = 11;

std::string labelled(std::string_view label, std::string_view text) {
  return wrap(text, padded(fmt::format("  {}", label), kLabelWidth), std::string(kLabelWidth, ' '));
}

std::string shown(Hours hours) {
  return show_duration(std::chrono::seconds(static_cast<std::int64_t>(hours.hours() * 3600.0)));
}

std::string number_text(double value) {
  return fmt::format("{:g}", value);
}

/// The title of a purchase: "Conversion varnish, hardener".
std::string title_of(const Purchase& purchase) {
  const std::string& title = purchase.of->product->title;
  return purchase.part.empty() ? title : fmt::format("{}: {}", title, purchase.part);
}

std::string shopping_list(const QuantitiesView& view) {
  TextTable table({{"product"},
                   {"needed", TextTable::Align::kRight},
                   {"buy"},
                   {"left over", TextTable::Align::kRight}});
  for (const Purchase& purchase : view.purchases) {
    table.add({title_of(purchase),
               amount_text(purchase.needed, view.units),
               cans_text(purchase.cans),
               amount_text(purchase.cans.left_over, view.units)});
  }
  return table.text();
}

std::string pieces_text(const QuantitiesView& view) {
  std::string text;
  for (const PieceOfJob& piece : view.pieces) {
    text += wrap(fmt::format("{}: {}, {} of {}",
                             piece.name,
                             piece.schedule,
                             piece.faces == 1 ? "one face" : "two faces",
                             show_area(piece.face, view.units)),
                 2,
                 4);
  }
  return text;
}

std::string groups_text(const ProductAmount& amount, const QuantitiesView& view) {
  std::string text;
  for (const CoatGroup& group : amount.groups) {
    text += labelled(text.empty() ? "for" : "",
                     fmt::format("{}: {}: {}",
                                 group.piece,
                                 reckoning_of(group, view.units),
                                 amount_text(group.used, view.units)));
  }
  return text;
}

std::string waste_text(const ProductAmount& amount, const QuantitiesView& view) {
  return labelled("waste",
                  fmt::format("{:g} % of {} on top, for what stays in can, strainer and tool",
                              amount.waste_percent,
                              amount_text(amount.used, view.units)));
}

std::string thinner_text(const ProductAmount& amount, const QuantitiesView& view) {
  if (amount.thinner_name.empty()) {
    return "";
  }
  return labelled("thinner",
                  fmt::format("{} of {} in {} of product",
                              amount_text(amount.thinner, view.units),
                              amount.thinner_name,
                              amount_text(amount.supplied, view.units)));
}

std::string mix_text(const ProductAmount& amount, const QuantitiesView& view) {
  if (amount.mix.empty()) {
    return "";
  }
  std::string ratio;
  std::string amounts;
  for (const MixShare& share : amount.mix) {
    ratio += fmt::format("{}{} {} of {}",
                         ratio.empty() ? "" : " to ",
                         number_text(share.parts),
                         share.parts == 1.0 ? "part" : "parts",
                         share.name);
    amounts +=
        fmt::format("{}{}", amounts.empty() ? "" : " and ", amount_text(share.amount, view.units));
  }
  const bool by_mass = amount.product->mix->by_mass;
  return labelled("mix",
                  by_mass
                      ? fmt::format("{}, by mass: weigh them. To buy, they are taken as equally "
                                    "heavy: {}",
                                    ratio,
                                    amounts)
                      : fmt::format("{}, by volume: {}", ratio, amounts));
}

/// "hall bench: coat 1: 2 of 0.12 L" with like portions of one piece put together.
std::string portions_text(const ProductAmount& amount, const QuantitiesView& view) {
  std::string text;
  const auto& sessions = amount.batches.sessions;
  for (std::size_t i = 0; i < sessions.size();) {
    int count = 0;
    const std::string size = amount_text(sessions[i].each, view.units);
    std::size_t next = i;
    for (; next < sessions.size() && sessions[next].piece == sessions[i].piece &&
           amount_text(sessions[next].each, view.units) == size;
         ++next) {
      count += sessions[next].count;
    }
    text +=
        fmt::format("{}{} of {} for {}", text.empty() ? "" : ", ", count, size, sessions[i].piece);
    i = next;
  }
  return text;
}

std::string induction_text(const ProductAmount& amount) {
  const Mix& mix = *amount.product->mix;
  return mix.induction.hours() > 0.0 ? fmt::format("Let it stand {} first. ", shown(mix.induction))
                                     : std::string();
}

std::string pot_life_text(const ProductAmount& amount, const QuantitiesView& view) {
  const Batches& batches = amount.batches;
  if (!batches.pot_life) {
    return fmt::format("{}Its pot life is not known here: see its label.", induction_text(amount));
  }
  const std::string at = show_temperature(view.air.temperature, view.units);
  if (batches.too_short) {
    return fmt::format(
        "It cannot be used at {}: it must stand {}, and is to be used up within {} of "
        "mixing. Mix it in cooler air.",
        at,
        shown(amount.product->mix->induction),
        shown(*batches.pot_life));
  }
  const bool stands = amount.product->mix->induction.hours() > 0.0;
  return fmt::format("{}At {} use each up within {} of mixing{}.",
                     induction_text(amount),
                     at,
                     shown(*batches.pot_life),
                     stands ? fmt::format(", so that {} are left for work", shown(*batches.usable))
                            : std::string());
}

std::string batches_text(const ProductAmount& amount, const QuantitiesView& view) {
  if (amount.mix.empty()) {
    return "";
  }
  const std::string portions = portions_text(amount, view);
  return labelled(
      "batches",
      (portions.empty() ? "" : as_sentence(portions) + " ") + pot_life_text(amount, view));
}

std::string months_text(double months) {
  return fmt::format("{:g} {}", months, months == 1.0 ? "month" : "months");
}

std::string keeps_text(const ProductAmount& amount, const QuantitiesView& view) {
  const Storage& storage = amount.product->storage;
  std::string text;
  if (storage.shelf_months) {
    text = fmt::format("{} unopened", months_text(storage.shelf_months->value));
  }
  if (const auto until = use_by(storage, view.now)) {
    text += fmt::format("{}{} once opened: a can opened today until {}",
                        text.empty() ? "" : ", ",
                        months_text(storage.opened_months->value),
                        show_date(*until, view.zone));
  }
  return labelled("keeps", text.empty() ? "not known here: see the can" : text);
}

std::string product_text(const ProductAmount& amount, const QuantitiesView& view) {
  return underlined(
             fmt::format("{}: {}", amount.product->title, amount_text(amount.amount, view.units)),
             '-') +
         groups_text(amount, view) + waste_text(amount, view) + thinner_text(amount, view) +
         mix_text(amount, view) + batches_text(amount, view) + keeps_text(amount, view) + "\n";
}

std::string check_text(const FilmCheck& check, const QuantitiesView& view) {
  const std::string most = view.units == UnitSystem::kUs
                               ? fmt::format("{:.1f} mil", check.limit.mils())
                               : fmt::format("{:.0f} um", check.limit.micrometres());
  std::string text = fmt::format("{} {}, {} the {} that {} {}.",
                                 check.whole ? "In all" : check.product->title + " alone:",
                                 film_range_text(check.dry, view.units),
                                 name_of(check.verdict),
                                 most,
                                 check.product->title,
                                 check.whole ? "on top bears" : "bears");
  if (check.verdict != FilmVerdict::kWithin) {
    text += " Above that the film may crack or stay soft.";
  }
  return text;
}

std::string film_text(const PieceOfJob& piece, const QuantitiesView& view) {
  std::string text;
  for (const FilmCheck& check : piece.film.checks) {
    text += (text.empty() ? "" : " ") + check_text(check, view);
  }
  if (text.empty()) {
    text = piece.film.layers.empty()
               ? "Not known: no wet film and solids of its products are stated here."
               : fmt::format("In all {}; no limit is known of {}.",
                             film_range_text(piece.film.total, view.units),
                             piece.film.layers.back().product->title);
  }
  std::string left_out;
  for (const Product* product : piece.film.without_film) {
    left_out += (left_out.empty() ? "" : ", ") + product->title;
  }
  if (!left_out.empty() && !piece.film.layers.empty()) {
    text += fmt::format(" Not counted, as no film of it is known: {}.", left_out);
  }
  return wrap(fmt::format("{}: {}", piece.name, text), 2, 4);
}

std::string films_text(const QuantitiesView& view) {
  std::string text = underlined("Dry film", '-');
  for (const PieceOfJob& piece : view.pieces) {
    text += film_text(piece, view);
  }
  return text;
}

std::string us_amount_text(Volume amount) {
  constexpr double kFluidOuncesPerQuart = 32.0;
  constexpr double kQuartsPerGallon = 4.0;
  const double quarts = amount.us_quarts();
  if (quarts < 0.995) {
    return fmt::format("{:.1f} fl oz", quarts * kFluidOuncesPerQuart);
  }
  return quarts < kQuartsPerGallon ? fmt::format("{:.2f} qt", quarts)
                                   : fmt::format("{:.2f} gal", quarts / kQuartsPerGallon);
}

}  // namespace

std::string amount_text(Volume amount, UnitSystem units) {
  if (units == UnitSystem::kUs) {
    return us_amount_text(amount);
  }
  return amount.litres() < 0.0995 ? fmt::format("{:.0f} ml", amount.litres() * 1000.0)
                                  : fmt::format("{:.2f} L", amount.litres());
}

std::string cans_text(const CanPurchase& purchase) {
  std::string text;
  for (const auto& [can, count] : purchase.cans) {
    text += fmt::format("{}{} x {}", text.empty() ? "" : ", ", count, can.name);
  }
  return text.empty() ? "nothing" : text;
}

std::string film_range_text(const DryRange& dry, UnitSystem units) {
  const auto text = [&](FilmThickness film) {
    return units == UnitSystem::kUs ? fmt::format("{:.1f}", film.mils())
                                    : fmt::format("{:.0f}", film.micrometres());
  };
  const std::string unit = units == UnitSystem::kUs ? "mil" : "um";
  const std::string low = text(dry.low);
  const std::string high = text(dry.high);
  return low == high ? fmt::format("{} {}", low, unit)
                     : fmt::format("{} to {} {}", low, high, unit);
}

std::string show_quantities(const QuantitiesView& view) {
  std::string text = underlined("What to buy", '=');
  if (view.products.empty()) {
    return text + "Nothing: no coat is still to come.\n" + pieces_text(view);
  }
  text += shopping_list(view) + "\nFor\n" + pieces_text(view) + "\n";
  for (const ProductAmount& amount : view.products) {
    text += product_text(amount, view);
  }
  return text + films_text(view);
}

}  // namespace coatwright
