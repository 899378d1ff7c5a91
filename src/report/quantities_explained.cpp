// How each amount is reckoned, with the figures, their sources and how they are known.
#include <fmt/format.h>

#include "base/quantity_text.h"
#include "report/quantities_page.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

std::string line(std::string_view text) {
  return wrap(text, 2, 6);
}

/// A formula once more, with its figures.
std::string figures(std::string_view text) {
  return wrap(text, 4, 8);
}

std::string source_line(std::string_view what, std::string_view source, std::string_view note) {
  return line(fmt::format("{}: {}{}", what, source, note.empty() ? "" : fmt::format("; {}", note)));
}

std::string percent_range(const PercentRange& range) {
  return range.low == range.high ? fmt::format("{:g} %", range.low)
                                 : fmt::format("{:g} to {:g} %", range.low, range.high);
}

std::string tool_line(const CoatGroup& group) {
  const Tool& tool = *group.tool;
  return line(fmt::format("share on the wood with {}: {} by sources, {:g} taken; {}, {}{}",
                          tool.title,
                          percent_range(tool.efficiency_range),
                          *group.rate.on_the_wood * 100.0,
                          tool.source,
                          tool.how,
                          tool.note.empty() ? "" : "; " + tool.note));
}

std::string film_formula(const CoatGroup& group) {
  const CoverRate& rate = group.rate;
  return line("litres = coats x area x wet film / (1000 x share on the wood)") +
         figures(fmt::format("= {} x {:.3f} m2 x {:g} um / (1000 x {:g}) = {:.4f} L",
                             group.coats,
                             group.area.square_metres(),
                             rate.film->micrometres(),
                             *rate.on_the_wood,
                             group.used.litres()));
}

std::string spread_formula(const CoatGroup& group) {
  const CoverRate& rate = group.rate;
  const std::string share = rate.on_the_wood ? fmt::format(" x {:g}", *rate.on_the_wood) : "";
  return line(fmt::format(
             "litres = coats x area / {}",
             rate.on_the_wood ? "(spreading rate x share on the wood)" : "spreading rate")) +
         figures(fmt::format("= {} x {:.3f} m2 / ({:g} m2/L{}) = {:.4f} L",
                             group.coats,
                             group.area.square_metres(),
                             rate.spread_m2_per_l,
                             share,
                             group.used.litres()));
}

std::string film_source(const CoatGroup& group, const Film& film) {
  const bool reference = film.reference_wet && film.reference_wet->value == *group.rate.film;
  return reference ? source_line("wet film", film.reference_wet->source, film.reference_wet->note)
                   : source_line("wet film", "the schedule's own", "");
}

std::string group_text(const CoatGroup& group, const Product& product) {
  const bool by_film = group.rate.film.has_value();
  std::string text = wrap(group.piece, 0, 2);
  text += by_film ? film_formula(group) : spread_formula(group);
  text += by_film ? film_source(group, product.film)
                  : source_line("spreading rate, low end", product.film.spread_source, "");
  return group.rate.on_the_wood ? text + tool_line(group) : text;
}

std::string mix_text(const ProductAmount& amount, const QuantitiesView& view) {
  if (amount.mix.empty()) {
    return "";
  }
  const Mix& mix = *amount.product->mix;
  std::string text = "Mix\n" + source_line("parts", mix.parts_source, "");
  if (mix.pot_life && amount.batches.pot_life) {
    text += line("pot life = low end / rate, the rate at least 1") +
            figures(fmt::format("= {:g} h / rate at {} ({}) = {:.3f} h",
                                mix.pot_life->low().hours(),
                                show_temperature(view.air.temperature, view.units),
                                view.air_from,
                                amount.batches.pot_life->hours())) +
            source_line("pot life", mix.pot_life_source, mix.pot_life_law.description());
  }
  if (mix.induction.hours() > 0.0) {
    text +=
        line(fmt::format("standing, {:g} min of it, is not for work", mix.induction.minutes())) +
        source_line("standing", mix.induction_source, "");
  }
  for (const SessionBatches& session : amount.batches.sessions) {
    text += line(fmt::format("{}, coat {}: {} of {:.4f} L, {:.0f} min of work each",
                             session.piece,
                             session.coat,
                             session.count,
                             session.each.litres(),
                             session.work.minutes()));
  }
  return text + line("work: recipes/working_times.toml, the slow end");
}

std::string product_text(const ProductAmount& amount, const QuantitiesView& view) {
  std::string text = "\n" + underlined(amount.product->title, '-');
  for (const CoatGroup& group : amount.groups) {
    text += group_text(group, *amount.product);
  }
  text += line(fmt::format("in all {:.4f} L, with {:g} % of waste {:.4f} L",
                           amount.used.litres(),
                           amount.waste_percent,
                           amount.amount.litres()));
  return text + mix_text(amount, view);
}

std::string film_text(const PieceOfJob& piece) {
  std::string text = wrap(piece.name, 0, 2);
  text += piece.film.layers.empty() ? line("no wet film or solids are known") : "";
  for (const DryLayer& layer : piece.film.layers) {
    text += line(fmt::format("{}: {} x {:g} um x {:.1f} to {:.1f} % = {:.1f} to {:.1f} um",
                             layer.product->title,
                             layer.coats,
                             layer.wet.micrometres(),
                             layer.solids.low,
                             layer.solids.high,
                             layer.dry.low.micrometres(),
                             layer.dry.high.micrometres()));
    text +=
        source_line("solids", layer.product->film.solids->source, layer.product->film.solids->note);
  }
  for (const FilmCheck& check : piece.film.checks) {
    const auto& limit = *check.product->film.total_dry_max;
    text += source_line(
        fmt::format("limit of {}, {:g} um", check.product->title, limit.value.micrometres()),
        limit.source,
        limit.note);
  }
  return text;
}

}  // namespace

std::string explain_quantities(const QuantitiesView& view) {
  std::string text =
      underlined("How it is reckoned", '=') +
      wrap(
          "Sources are keys of docs/references.bib. docs/formulas.md, Quantities, "
          "has the formulas.",
          0,
          0) +
      wrap(fmt::format("waste: {}, {}; {}", view.waste.source, view.waste.how, view.waste.note),
           0,
           0);
  for (const ProductAmount& amount : view.products) {
    text += product_text(amount, view);
  }
  text += "\n" + underlined("Dry film = coats x wet film x volume solids", '-');
  for (const PieceOfJob& piece : view.pieces) {
    text += film_text(piece);
  }
  return text;
}

}  // namespace coatwright
