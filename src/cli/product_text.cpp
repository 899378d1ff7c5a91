#include "cli/product_text.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/product_in_air.h"
#include "cli/product_vapour.h"
#include "cli/shop_pace_page.h"
#include "plan/air_limits.h"
#include "report/text_table.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

enum class Rounding { kUp, kDown };

/// A computed figure is known to one or two digits and not shown to the minute. What opens is
/// rounded up and what closes down, so that rounding never makes a window wider.
std::string show(Hours hours, Rounding rounding) {
  const double minutes = hours.minutes();
  const double step = minutes < 60      ? 1
                      : minutes < 360   ? 5
                      : minutes < 1440  ? 15
                      : minutes < 14400 ? 60
                                        : 1440;
  constexpr double kResidue = 1e-6;  // of adding up phases
  const double steps = rounding == Rounding::kUp ? std::ceil(minutes / step - kResidue)
                                                 : std::floor(minutes / step + kResidue);
  return show_duration(std::chrono::minutes(std::llround(steps * step)));
}

/// A figure of the recipe, as it stands there.
std::string show(Hours hours) {
  return show_duration(std::chrono::seconds(std::llround(hours.minutes() * 60.0)));
}

std::string show_range(const std::string& low, const std::string& high) {
  return low == high ? low : fmt::format("{} to {}", low, high);
}

std::string show(const DurationRange& range) {
  return show_range(show(range.low()), show(range.high()));
}

std::string show(const DurationRange& range, Rounding rounding) {
  return show_range(show(range.low(), rounding), show(range.high(), rounding));
}

std::string show_opening(const std::optional<DurationRange>& range) {
  return range ? show(*range, Rounding::kUp) : "does not open";
}

std::string show_film(FilmThickness film, UnitSystem units) {
  return units == UnitSystem::kUs ? fmt::format("{:.1f} mil", film.mils())
                                  : fmt::format("{:.0f} um", film.micrometres());
}

std::string show_spread_rate(double low, double high, UnitSystem units) {
  if (units == UnitSystem::kUs) {
    const double per_quart = Volume::kLitresPerUsQuart / Area::kSquareMetresPerSquareFoot;
    return fmt::format("{:.0f} to {:.0f} sq ft a quart", low * per_quart, high * per_quart);
  }
  return fmt::format("{:.1f} to {:.1f} m2 a litre", low, high);
}

/// "[source]" or "[source: note]".
std::string cite(const std::string& source, const std::string& note = "") {
  return note.empty() ? fmt::format("[{}]", source) : fmt::format("[{}: {}]", source, note);
}

std::string_view words_for(RecoatCondition condition) {
  switch (condition) {
    case RecoatCondition::kNone:
      return "nothing to do first";
    case RecoatCondition::kAbrade:
      return "abrade first";
    case RecoatCondition::kNever:
      break;
  }
  return "not at all";
}

/// Writes one product; keeps what every part needs.
class Writer {
 public:
  Writer(const Product& product, std::optional<TemperatureAndHumidity> air, UnitSystem units)
      : product_(product), air_(air), units_(units) {}

  [[nodiscard]] std::string whole() const {
    return head() + times() + recoat() + wipe_off() + mix() + film() + care() + limits() +
           vapour_as_text(product_, units_) + hazards() + remarks();
  }

 private:
  [[nodiscard]] std::string head() const {
    std::string methods;
    for (const Method method : product_.methods) {
      methods += (methods.empty() ? "" : ", ") + std::string(name_of(method));
    }
    std::string about = fmt::format(
        "{}; carrier {}; methods: {}", name_of(product_.kind), product_.carrier, methods);
    about += product_.oxidises ? "; cures by taking up oxygen" : "";
    about += product_.raises_grain ? "; raises the grain" : "";
    about += product_.abrade_grit.empty() ? "" : "; abraded with " + product_.abrade_grit;
    about += product_.made_from.empty() ? "" : "; made from " + product_.made_from;
    return underlined(fmt::format("{}: {}", product_.name, product_.title), '-') +
           wrap(about + ".", 0, 0);
  }

  /// The table's columns: what, at the reference, and in the air where one is given.
  [[nodiscard]] TextTable table(const std::string& first) const {
    std::vector<TextTable::Column> columns = {
        {first},
        {fmt::format("at {}, {}",
                     show_temperature(kReferenceTemperature, units_),
                     show_humidity(kReferenceHumidity))}};
    if (air_) {
      columns.push_back({fmt::format("in {}, {}",
                                     show_temperature(air_->temperature, units_),
                                     show_humidity(air_->humidity))});
    }
    return TextTable(std::move(columns));
  }

  void add_opening(TextTable& into, const std::string& what, const StageTiming& timing) const {
    into.add(air_ ? std::vector{what,
                                show(timing.whole()),
                                show_opening(opening_in_air(timing, product_.limits, *air_))}
                  : std::vector{what, show(timing.whole())});
  }

  [[nodiscard]] std::string times() const {
    TextTable stages = table("stage");
    std::string reasons;
    for (const auto& [stage, drying] : product_.stages) {
      const std::string name(name_of(stage));
      add_opening(stages, name, drying.timing);
      reasons += wrap(
          fmt::format(
              "{}: {} {}", name, drying.timing.description(), cite(drying.source, drying.note)),
          2,
          4);
    }
    return "\nTimes from the coat on, 10th to 90th percentile\n" + stages.text(2) +
           "What sets the pace, and where the figure is from\n" + reasons;
  }

  [[nodiscard]] std::string recoat() const {
    if (product_.recoat.empty()) {
      return "";
    }
    std::string text = "\nOver itself\n";
    for (const RecoatInterval& interval : product_.recoat) {
      TextTable rows = table(std::string(words_for(interval.condition)));
      add_opening(rows, "opens", interval.opens);
      if (interval.closes) {
        rows.add(air_ ? std::vector<std::string>{"closes",
                                                 show(interval.closes->whole()),
                                                 show(closing_in_air(*interval.closes, *air_),
                                                      Rounding::kDown)}
                      : std::vector<std::string>{"closes", show(interval.closes->whole())});
      } else {
        rows.add({"closes", "never", air_ ? "never" : ""});
      }
      text += rows.text(2) + wrap(interval.reason + " " + cite(interval.source), 4, 4);
    }
    return text;
  }

  [[nodiscard]] std::string wipe_off() const {
    if (!product_.wipe_off) {
      return "";
    }
    const WipeOff& wipe = *product_.wipe_off;
    TextTable rows = table("excess");
    rows.add({"opens", show(wipe.opens), show(wipe.opens)});
    rows.add({"closes",
              show(wipe.closes),
              air_ ? show(closing_in_air(wipe, *air_), Rounding::kDown) : ""});
    return "\nWipe-off\n" + rows.text(2) +
           wrap(fmt::format("closing by {} {}", wipe.closing_law.description(), cite(wipe.source)),
                4,
                4);
  }

  [[nodiscard]] std::string film() const {
    const Film& film = product_.film;
    std::string text = "\nFilm\n";
    if (film.reference_wet) {
      text += wrap(fmt::format("the times hold for {} wet {}",
                               show_film(film.reference_wet->value, units_),
                               cite(film.reference_wet->source, film.reference_wet->note)),
                   2,
                   4);
    }
    if (film.solids) {
      text += wrap(fmt::format("solids by volume {:.0f} to {:.0f} % {}",
                               film.solids->value.low,
                               film.solids->value.high,
                               cite(film.solids->source, film.solids->note)),
                   2,
                   4);
    }
    text += wrap(
        fmt::format("spreads {} {}",
                    show_spread_rate(film.spread_low_m2_per_l, film.spread_high_m2_per_l, units_),
                    cite(film.spread_source)),
        2,
        4);
    if (product_.usual_coats) {
      const UsualCoats& coats = *product_.usual_coats;
      const std::string count = coats.low == coats.high
                                    ? fmt::format("{}", coats.low)
                                    : fmt::format("{} to {}", coats.low, coats.high);
      text += wrap(fmt::format("usual coats {} {}", count, cite(coats.source)), 2, 4);
    }
    if (film.total_dry_max) {
      text += wrap(fmt::format("all coats together at most {} dry {}",
                               show_film(film.total_dry_max->value, units_),
                               cite(film.total_dry_max->source, film.total_dry_max->note)),
                   2,
                   4);
    }
    return text;
  }

  [[nodiscard]] std::string care() const {
    std::string text;
    for (const Preparation& one : product_.preparations) {
      text += wrap(fmt::format("{}: {} {} before the first coat {}",
                               name_of(one.when),
                               as_sentence(one.text),
                               show(one.lead),
                               cite(one.source)),
                   2,
                   4);
    }
    const auto keeps = [&](const std::optional<Sourced<double>>& months, std::string_view words) {
      text += months ? wrap(fmt::format("keeps {:g} months {} {}",
                                        months->value,
                                        words,
                                        cite(months->source, months->note)),
                            2,
                            4)
                     : "";
    };
    keeps(product_.storage.shelf_months, "unopened");
    keeps(product_.storage.opened_months, "once opened");
    return text.empty() ? "" : "\nBefore it is used\n" + text;
  }

  [[nodiscard]] std::string mix() const {
    if (!product_.mix) {
      return "";
    }
    const Mix& mix = *product_.mix;
    std::string parts;
    for (const Mix::Part& part : mix.parts) {
      parts += fmt::format("{}{:g} {}", parts.empty() ? "" : " to ", part.parts, part.name);
    }
    std::string text =
        "\nMix\n" +
        wrap(fmt::format(
                 "{} by {} {}", parts, mix.by_mass ? "mass" : "volume", cite(mix.parts_source)),
             2,
             4);
    if (mix.induction.hours() > 0.0) {
      text += wrap(
          fmt::format("stands {} first {}", show(mix.induction), cite(mix.induction_source)), 2, 4);
    }
    if (mix.pot_life) {
      text += wrap(fmt::format("to be used up within {} at the reference, {} {}",
                               show(*mix.pot_life),
                               mix.pot_life_law.description(),
                               cite(mix.pot_life_source)),
                   2,
                   4);
    }
    return text;
  }

  [[nodiscard]] std::string show_value(Temperature value) const {
    return show_temperature(value, units_);
  }
  [[nodiscard]] std::string show_value(TemperatureDifference value) const {
    return show_difference(value, units_);
  }
  [[nodiscard]] static std::string show_value(RelativeHumidity value) {
    return show_humidity(value);
  }

  template <class T>
  [[nodiscard]] std::string limit(std::string_view words,
                                  const std::optional<Sourced<T>>& limit) const {
    return limit ? wrap(fmt::format("{} {} {}",
                                    words,
                                    show_value(limit->value),
                                    cite(limit->source, limit->note)),
                        2,
                        4)
                 : "";
  }

  [[nodiscard]] std::string limits() const {
    const Limits& limits = product_.limits;
    const std::string lines = limit("temperature at least", limits.temperature_min) +
                              limit("temperature at most", limits.temperature_max) +
                              limit("humidity at least", limits.humidity_min) +
                              limit("humidity at most", limits.humidity_max) +
                              limit("above the dew point at least", limits.dew_point_spread_min) +
                              limit("may blush nearer to the dew point than", limits.blush_spread) +
                              limit("film forms from", limits.film_formation_min);
    return lines.empty()
               ? ""
               : fmt::format("\nLimits until {}\n{}", name_of(limits.critical_stage), lines);
  }

  [[nodiscard]] std::string hazards() const {
    const Hazards& hazards = product_.hazards;
    std::string text = fmt::format("\nHazards {}\n", cite(hazards.source));
    const auto line = [&](bool holds, std::string_view words) {
      text += holds ? wrap(words, "  - ", "    ") : "";
    };
    line(hazards.rags_self_heat,
         "Rags, pads and dust with it can heat up and ignite by themselves.");
    line(hazards.flammable, "Its vapour ignites.");
    line(hazards.nitrocellulose, "Overspray and residue burn violently.");
    line(hazards.sprayed_mist, "Put on with a gun: mist and vapour where people breathe.");
    constexpr std::string_view kLabelFirst = "Label and data sheet come first.";
    line(std::ranges::count(hazards.cautions, kLabelFirst) == 0, kLabelFirst);
    for (const std::string& caution : hazards.cautions) {
      line(true, caution);
    }
    return text;
  }

  [[nodiscard]] std::string remarks() const {
    std::string text;
    for (const std::string& words :
         air_ ? words_on_air(product_, *air_) : std::vector<std::string>()) {
      text += wrap(words, "  - ", "    ");
    }
    return text.empty() ? "" : "\nThis air\n" + text;
  }

  const Product& product_;
  std::optional<TemperatureAndHumidity> air_;
  UnitSystem units_;
};

}  // namespace

std::string show_opening_range(const DurationRange& range) {
  return show(range, Rounding::kUp);
}

std::vector<std::string> words_on_air(const Product& product, const TemperatureAndHumidity& air) {
  const AirRecord record(
      {}, UsualDay::constant(air.temperature, air.humidity), Zone::find("UTC").value());
  const AirLimits limits(record, product);
  const Time any{};
  std::vector<std::string> words;
  if (const auto breach = limits.breach_at(any)) {
    words.push_back("Not to be put on: " + breach->text);
  }
  std::optional<Temperature> gate;
  for (const auto& [stage, drying] : product.stages) {
    gate = std::max(gate, gate_of(drying.timing, product.limits));
  }
  if (gate && air.temperature < *gate) {
    words.push_back(
        fmt::format("Below {} ({}) nothing that opens is credited; what closes runs on by the "
                    "label's hours.",
                    show_temperature(*gate, UnitSystem::kMetric),
                    show_whole_temperature(*gate, UnitSystem::kUs)));
  }
  for (LimitBreach& caution : limits.cautions(any, any)) {
    words.push_back(std::move(caution.text));
  }
  return words;
}

std::string product_as_text(const Product& product,
                            const std::optional<TemperatureAndHumidity>& air,
                            const LearnedPaces& learned,
                            UnitSystem units) {
  return Writer(product, air, units).whole() + shop_pace_as_text(paced_stages(product, learned));
}

}  // namespace coatwright
