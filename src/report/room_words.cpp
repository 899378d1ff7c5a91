#include "report/room_words.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/quantity_text.h"
#include "base/vapour_text.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

const PlanVapour* vapour_of_step(const Plan& plan, int step) {
  if (!plan.room) {
    return nullptr;
  }
  const auto& coats = plan.room->coats;
  const auto found = std::find_if(
      coats.begin(), coats.end(), [step](const PlanVapour& one) { return one.step == step; });
  return found == coats.end() ? nullptr : &*found;
}

bool any_flammable(const std::vector<PlanVapour>& coats) {
  return std::any_of(coats.begin(), coats.end(), [](const PlanVapour& one) {
    return one.vapour.product->hazards.flammable;
  });
}

std::string mark_of(const std::string& source, const std::string& how) {
  return source == how ? source : fmt::format("{}, {}", source, how);
}

std::string limit_text(const VapourPart& part) {
  std::string text;
  if (const auto* limit = part.substance->lowest_explosive_limit()) {
    text = fmt::format("lower explosive limit {:.2g} % ({})",
                       limit->value.percent(),
                       mark_of(limit->source, limit->how));
  } else {
    text = "no explosive limit known";
  }
  if (const auto* limit = part.substance->strictest_limit()) {
    text += fmt::format("; {} {:.3g} ppm ({})",
                        limit->name,
                        limit->at_most.value.ppm(),
                        mark_of(limit->at_most.source, limit->at_most.how));
  } else {
    text += "; no limit of exposure known";
  }
  return text;
}

std::string part_text(const VapourPart& part, UnitSystem units) {
  const Substance& substance = *part.substance;
  return fmt::format("{}: {:.3g} L x {:.0f} g/L ({}) / {:.4g} g/mol x RT/p = {}; {}",
                     substance.name,
                     part.liquid.litres(),
                     substance.density->value.g_per_l(),
                     mark_of(substance.density->source, substance.density->how),
                     substance.molar_mass.g_per_mol(),
                     show_air_volume(part.vapour, units),
                     limit_text(part));
}

std::string peak_text(const PlanVapour& coat) {
  return fmt::format(
      "In this room the mixed air comes to {} and to {}, other coats that dry then "
      "included.",
      explosive_share_text(*coat.of_explosive_limit),
      exposure_text(*coat.of_exposure_limits));
}

}  // namespace

std::string explosive_share_text(double of_limit) {
  const std::string share =
      of_limit < 0.001 ? "under 0.1 %"
                       : fmt::format("{:.{}f} %", of_limit * 100.0, of_limit < 0.1 ? 1 : 0);
  return share + " of the lower explosive limit" +
         (of_limit > kShareOfExplosiveLimit ? ", MORE THAN THE QUARTER THAT IS ALLOWED" : "");
}

std::string exposure_text(double of_limits) {
  if (of_limits <= 1.0) {
    return fmt::format("{:.1f} of the limits of exposure", std::max(0.1, of_limits));
  }
  return fmt::format("{:.{}f} times the limits of exposure", of_limits, of_limits < 10.0 ? 1 : 0);
}

std::string vapour_line(const Plan& plan, const PlanStep& step) {
  const PlanVapour* coat = vapour_of_step(plan, step.id);
  if (coat == nullptr || !coat->of_explosive_limit) {
    return "";
  }
  return fmt::format("Room's air at most at {}, and at {}.",
                     explosive_share_text(*coat->of_explosive_limit),
                     exposure_text(*coat->of_exposure_limits));
}

std::string room_text(const FinishingRoom& room, bool flammable, UnitSystem units) {
  if (!room.volume) {
    return "The finishing room is not known: say how large it is and what its fan moves with "
           "`coatwright shop set --room --fan --fan-rated`.";
  }
  std::string text = fmt::format("The room holds {} of air", show_air_volume(*room.volume, units));
  if (!room.fan) {
    return text + ", and has no exhaust fan.";
  }
  text += fmt::format("; its fan moves {}", show_air_flow(*room.fan, units));
  const AirFlow counts = room.flow_for(flammable);
  if (counts.cubic_metres_per_second() <= 0.0) {
    return text +
           ", but is not known to be rated for flammable vapour: nothing is reckoned with "
           "it, and it must not run in such vapour.";
  }
  return text + fmt::format(", of which {} count (mixing factor {:g}).",
                            show_air_flow(counts * (1.0 / room.mixing.number()), units),
                            room.mixing.number());
}

std::string run_text(const FanRun& run, const Zone& zone) {
  const auto moment = [&](Time at) { return short_moment(shown_minute(at), zone); };
  const std::string off = run.off ? "off not before " + moment(*run.off)
                                  : "off when the data sheet lets it be: no figure here says when";
  const std::string in =
      run.breathable ? "without a respirator in the room not before " + moment(*run.breathable)
                     : "no time is given for going in without a respirator";
  return fmt::format("Fan on from {}, {}; {}.", moment(run.on), off, in);
}

std::vector<std::string> room_lines(const PlanView& view) {
  if (!view.plan.room || !view.plan.room->room.volume || view.plan.room->coats.empty()) {
    return {};
  }
  const PlanRoom& room = *view.plan.room;
  std::vector<std::string> lines = {room_text(room.room, any_flammable(room.coats), view.units)};
  for (const FanRun& run : room.runs) {
    lines.push_back(run_text(run, view.zone));
  }
  lines.emplace_back(kByCalculation);
  return lines;
}

std::string room_section(const PlanView& view) {
  std::string text;
  for (const std::string& line : room_lines(view)) {
    text += wrap(line, "- ", "  ");
  }
  return text;
}

std::string vapour_explained(const CoatVapour& coat, const FinishingRoom& room, UnitSystem units) {
  const Product& product = *coat.product;
  if (!product.vapour || coat.parts.empty()) {
    return wrap(product.title + ": nothing is known to evaporate.", 2, 4);
  }
  std::string text = wrap(fmt::format("{}, {} used, of which {:.0f} % evaporates ({}):",
                                      product.title,
                                      show_volume(coat.used, units),
                                      product.vapour->volatile_share * 100.0,
                                      mark_of(product.vapour->source, product.vapour->how)),
                          2,
                          4);
  for (const VapourPart& part : coat.parts) {
    text += wrap(part_text(part, units), 4, 6);
  }
  text += wrap(fmt::format("In all {} of vapour and {:.0f} g of volatile organic compounds.",
                           show_air_volume(coat.vapour(), units),
                           coat.voc_grams),
               4,
               6);
  text +=
      wrap(fmt::format("Air that keeps it at 25 % of the lower explosive limit: sum of 4 (100 - "
                       "LEL) V / LEL = {} (osha_1910_94, from memory).",
                       show_air_volume(coat.air_against_fire(), units)),
           4,
           6);
  text +=
      wrap(fmt::format("Air that would hold it at the limits of exposure, times the mixing factor "
                       "{:g}: sum of V / limit = {} (acgih_ventilation, from memory).",
                       room.mixing.number(),
                       show_air_volume(coat.air_for_health() * room.mixing.number(), units)),
           4,
           6);
  return text;
}

std::string vapour_explained(const PlanView& view) {
  std::string text;
  if (!view.plan.room) {
    return text;
  }
  for (const PlanVapour& coat : view.plan.room->coats) {
    text += wrap(fmt::format("Step {}:", coat.step), 0, 0);
    text += vapour_explained(coat.vapour, view.plan.room->room, view.units);
    text += coat.of_explosive_limit ? wrap(peak_text(coat), 4, 6) : "";
  }
  if (text.empty()) {
    return text;
  }
  return text +
         wrap(fmt::format(
                  "{} A coat sets its mist's solvent free at once, four fifths of the film's "
                  "evenly until it is dust-free, the rest ever slower until it takes no "
                  "prints (judgement). The fan may be off when what is in the air and in the "
                  "films would stay within the limits with no air changed at all. {}",
                  room_text(view.plan.room->room, any_flammable(view.plan.room->coats), view.units),
                  kByCalculation),
              0,
              0);
}

}  // namespace coatwright
