#include "report/plan_json.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include <nlohmann/json.hpp>

#include "air/moist_air.h"

namespace coatwright {
namespace {

using Json = nlohmann::ordered_json;

constexpr const char* kFormat = "coatwright/plan/1";

// Figures are written to the millionth: fine enough to integrate again, and without the digits that
// 18.85 C gets from its passage through kelvin.
double rounded(double value) {
  constexpr double kParts = 1e6;
  return std::round(value * kParts) / kParts + 0.0;  // + 0.0 turns -0 into 0
}

double minutes_of(std::chrono::seconds span) {
  return rounded(std::chrono::duration<double, std::ratio<60>>(span).count());
}

class PlanWriter {
 public:
  PlanWriter(const Plan& plan, const Zone& zone) : plan_(plan), zone_(zone) {}

  [[nodiscard]] Json whole() const;

 private:
  [[nodiscard]] Json time(Time value) const { return show_rfc3339(value, zone_); }
  [[nodiscard]] Json time(const std::optional<Time>& value) const {
    return value ? time(*value) : Json(nullptr);
  }
  [[nodiscard]] Json shop() const;
  [[nodiscard]] Json piece(const PlanPiece& piece) const;
  [[nodiscard]] Json knot(const AirKnot& knot) const;
  [[nodiscard]] Json wait(const Wait& wait) const;
  [[nodiscard]] Json step(const PlanStep& step) const;
  [[nodiscard]] Json quantity(const PlannedQuantity& quantity) const;
  [[nodiscard]] Json room(const PlanRoom& room) const;
  [[nodiscard]] Json changes(const PlanChanges& changes) const;
  [[nodiscard]] int most_at_once(int PlanStep::*use) const;

  const Plan& plan_;
  const Zone& zone_;
};

template <class Items, class Write>
Json array_of(const Items& items, Write write) {
  Json array = Json::array();
  for (const auto& item : items) {
    array.push_back(write(item));
  }
  return array;
}

Json celsius(const std::optional<Temperature>& value) {
  return value ? Json(rounded(value->celsius())) : Json(nullptr);
}

// The parameters of a law, as members of whatever it governs.
void add_law(Json& into, const RateLaw& law) {
  into["mechanism"] = name_of(law.mechanism);
  into["solvent"] = law.solvent ? Json(law.solvent->solvent) : Json(nullptr);
  into["antoine"] = nullptr;
  if (law.solvent) {
    into["antoine"] = {{"a", rounded(law.solvent->a)},
                       {"b", rounded(law.solvent->b)},
                       {"c", rounded(law.solvent->c)},
                       {"source", law.solvent->source}};
  }
  into["activation_kj_per_mol"] = rounded(law.activation_kj_per_mol);
}

Json phase_json(const WaitPhase& phase) {
  Json json;
  add_law(json, phase.law);
  json["low_hours"] = rounded(phase.range.low().hours());
  json["high_hours"] = rounded(phase.range.high().hours());
  json["needed_hours"] = rounded(phase.needed.hours());
  if (phase.labelled) {
    json["labelled_low_hours"] = rounded(phase.labelled->low().hours());
    json["labelled_high_hours"] = rounded(phase.labelled->high().hours());
  }
  return json;
}

Json rate_json(const PlanRate& rate) {
  Json json = {{"product", rate.product}, {"stage", rate.stage}};
  add_law(json, rate.law);
  json["low_hours"] = rounded(rate.low.hours());
  json["high_hours"] = rounded(rate.high.hours());
  json["film_factor"] = rounded(rate.film_factor);
  json["gate_c"] = celsius(rate.gate);
  json["source"] = rate.source;
  return json;
}

Json warning_json(const PlanWarning& warning) {
  return {{"code", warning.code},
          {"text", warning.text},
          {"step", warning.step ? Json(*warning.step) : Json(nullptr)}};
}

Json hold_up_json(const HoldUp& hold_up) {
  return {{"text", hold_up.text}, {"minutes", minutes_of(hold_up.span)}};
}

Json link_json(const CriticalLink& link) {
  return {{"step", link.step},
          {"after", link.after},
          {"cause", link.cause},
          {"waited_minutes", minutes_of(link.waited)},
          {"closed_minutes", minutes_of(link.closed)},
          {"air_minutes", minutes_of(link.air)}};
}

Json shared_wait_json(const SharedWait& wait) {
  return {{"step", wait.step},
          {"after", wait.after},
          {"cause", wait.cause},
          {"waited_minutes", minutes_of(wait.waited)}};
}

Json shortage_json(const Shortage& shortage) {
  return {{"resource", shortage.resource},
          {"waited_minutes", minutes_of(shortage.waited)},
          {"sessions", shortage.sessions}};
}

Json PlanWriter::piece(const PlanPiece& piece) const {
  return {{"name", piece.name},
          {"species", piece.species},
          {"schedule", piece.schedule},
          {"area_m2", rounded(piece.area.square_metres())},
          {"faces", piece.faces},
          {"on_points", piece.on_points},
          {"parts", piece.parts},
          {"due", time(piece.due)},
          {"weight", rounded(piece.weight)},
          {"finish", time(piece.finish)},
          {"late_minutes", minutes_of(piece.late)},
          {"chance", piece.chance ? Json(rounded(*piece.chance)) : Json(nullptr)},
          {"critical", array_of(piece.critical, link_json)}};
}

Json PlanWriter::knot(const AirKnot& knot) const {
  const auto humidity = relative_humidity_from_humidity_ratio(knot.temperature, knot.ratio);
  return {{"at", time(knot.at)},
          {"temp_c", rounded(knot.temperature.celsius())},
          {"rh_percent", rounded(humidity.percent())},
          {"from", name_of(knot.origin)}};
}

Json PlanWriter::wait(const Wait& wait) const {
  return {{"step", wait.step},
          {"stage", wait.stage},
          {"product", wait.product},
          {"mechanism", wait.mechanism},
          {"since", time(wait.since)},
          {"opens_at", time(wait.opens_at)},
          {"needed_hours", rounded(wait.needed.hours())},
          {"earned_hours", rounded(wait.earned.hours())},
          {"closes_at", time(wait.closes_at)},
          {"closing", wait.closing ? phase_json(*wait.closing) : Json(nullptr)},
          {"closing_since", time(wait.closing_since)},
          {"condition", wait.condition},
          {"chance", rounded(wait.chance)},
          {"gate_c", celsius(wait.gate)},
          {"phases", array_of(wait.phases, phase_json)},
          {"source", wait.source}};
}

Json air_json(const PlanStep& step) {
  return {{"temp_c", rounded(step.air.temperature.celsius())},
          {"rh_percent", rounded(step.air.humidity.percent())},
          {"dew_point_c", rounded(step.air.dew_point.celsius())},
          {"surface_c", rounded(step.surface.celsius())},
          {"spread_c", rounded((step.surface - step.air.dew_point).kelvin())},
          {"from", name_of(step.air.origin)}};
}

Json PlanWriter::step(const PlanStep& step) const {
  return {{"id", step.id},
          {"piece", step.piece},
          {"part", step.part},
          {"face", step.face},
          {"kind", name_of(step.kind)},
          {"product", step.product},
          {"product_title", step.product_title},
          {"method", step.method},
          {"revision", step.revision},
          {"coat", step.coat},
          {"grit", step.grit},
          {"start", time(step.start)},
          {"end", time(step.end)},
          {"attended", step.attended},
          {"people", step.people},
          {"uses",
           {{"spray_places", step.spray_places},
            {"rack_places", step.rack_places},
            {"benches", step.benches}}},
          {"room", step.room},
          {"done", step.done},
          {"after", array_of(step.after, [&](const Wait& w) { return wait(w); })},
          {"air", air_json(step)},
          {"chance", rounded(step.chance)},
          {"work_source", step.work_source},
          {"notes", step.notes},
          {"cautions", step.cautions},
          {"hazards", step.hazards}};
}

Json PlanWriter::quantity(const PlannedQuantity& quantity) const {
  // Setting up the gun for a product of parts is a step of its own before the first batch.
  int mixes = 0;
  bool after_mixing = false;
  for (const PlanStep& s : plan_.steps) {
    const bool is_mixing = s.kind == StepKind::kMix && s.product == quantity.product;
    mixes += is_mixing && !after_mixing ? 1 : 0;
    after_mixing = is_mixing;
  }
  Json parts = Json::array();
  for (const PlannedPart& part : quantity.parts) {
    parts.push_back({{"name", part.name}, {"litres", rounded(part.amount.litres())}});
  }
  return {{"product", quantity.product},
          {"product_title", quantity.product_title},
          {"litres", rounded(quantity.amount.litres())},
          {"mixes", mixes},
          {"basis", quantity.basis},
          {"parts", std::move(parts)},
          {"batches", quantity.batches}};
}

Json odds_json(const PlanOdds& odds) {
  return {{"trials", odds.trials},
          {"seed", odds.seed},
          {"half_width", rounded(odds.half_width)},
          {"steps",
           array_of(odds.steps,
                    [](const StepOdds& one) {
                      return Json{{"step", one.step}, {"chance", rounded(one.chance)}};
                    })},
          {"as_printed", rounded(odds.as_printed)},
          {"pieces",
           array_of(odds.pieces,
                    [](const PieceOdds& one) {
                      return Json{{"piece", one.piece}, {"chance", rounded(one.chance)}};
                    })},
          {"by_date", rounded(odds.by_date)}};
}

Json vapour_json(const PlanVapour& coat) {
  const auto share = [](const std::optional<double>& value) {
    return value ? Json(rounded(*value)) : Json(nullptr);
  };
  return {{"step", coat.step},
          {"litres", rounded(coat.vapour.used.litres())},
          {"voc_grams", rounded(coat.vapour.voc_grams)},
          {"vapour_m3", rounded(coat.vapour.vapour().cubic_metres())},
          {"air_against_fire_m3", rounded(coat.vapour.air_against_fire().cubic_metres())},
          {"of_explosive_limit", share(coat.of_explosive_limit)},
          {"of_exposure_limits", share(coat.of_exposure_limits)}};
}

Json PlanWriter::room(const PlanRoom& room) const {
  const auto flow = [](const std::optional<AirFlow>& value) {
    return value ? Json(rounded(value->cubic_metres_per_hour())) : Json(nullptr);
  };
  const auto run_json = [&](const FanRun& run) {
    return Json{{"on", time(run.on)}, {"off", time(run.off)}, {"breathable", time(run.breathable)}};
  };
  const auto& volume = room.room.volume;
  return {{"volume_m3", volume ? Json(rounded(volume->cubic_metres())) : Json(nullptr)},
          {"fan_m3_per_h", flow(room.room.fan)},
          {"fan_rated", name_of(room.room.rating)},
          {"mixing_factor", rounded(room.room.mixing.number())},
          {"ignition", room.room.ignition},
          {"coats", array_of(room.coats, vapour_json)},
          {"fan_runs", array_of(room.runs, run_json)},
          {"fan_needed_m3_per_h", flow(room.fan_needed)}};
}

Json PlanWriter::changes(const PlanChanges& changes) const {
  const auto change_json = [&](const PlanChange& change) {
    return Json{{"kind", name_of(change.kind)},
                {"piece", change.piece},
                {"part", change.part},
                {"product_title", change.product_title},
                {"coat", change.coat},
                {"face", change.face},
                {"grit", change.grit},
                {"was", time(change.was)},
                {"is", time(change.is)}};
  };
  return {{"since", time(changes.since)},
          {"finish_was", time(changes.finish_was)},
          {"steps", array_of(changes.steps, change_json)},
          {"new_recipes", changes.new_recipes}};
}

// The most of something that steps use at the same moment; a step's end frees it for the next one.
int PlanWriter::most_at_once(int PlanStep::*use) const {
  std::map<Time, int> changes;
  for (const PlanStep& step : plan_.steps) {
    const bool absent = use == &PlanStep::people && !step.attended;
    changes[step.start] += absent ? 0 : step.*use;
    changes[step.end] -= absent ? 0 : step.*use;
  }
  int used = 0;
  int most = 0;
  for (const auto& [at, change] : changes) {
    used += change;
    most = std::max(most, used);
  }
  return most;
}

Json PlanWriter::shop() const {
  const auto opening = [&](const Interval& open) {
    return Json{{"start", time(open.start)}, {"end", time(open.end)}};
  };
  const auto staffed = [&](const StaffedHours& one) {
    Json json = opening(one.open);
    json["people"] = one.people;
    return json;
  };
  const auto count = [&](std::optional<int> PlanShop::*said, int PlanStep::*use) {
    if (!plan_.shop) {
      return Json(most_at_once(use));
    }
    const auto& entered = (*plan_.shop).*said;
    return entered ? Json(*entered) : Json(nullptr);
  };
  return {{"people", plan_.shop ? plan_.shop->people : most_at_once(&PlanStep::people)},
          {"spray_places", count(&PlanShop::spray_places, &PlanStep::spray_places)},
          {"rack_places", count(&PlanShop::rack_places, &PlanStep::rack_places)},
          {"benches", count(&PlanShop::benches, &PlanStep::benches)},
          {"as_entered", plan_.shop.has_value()},
          {"hours",
           plan_.shop ? array_of(plan_.shop->hours, staffed) : array_of(plan_.hours, opening)}};
}

Json PlanWriter::whole() const {
  const auto& [seed, nodes, stopped_by] = plan_.search;
  const auto& finish = plan_.finish;
  const bool has_gap = finish && plan_.bound;
  const auto& late = plan_.lateness;
  Json json = {{"format", kFormat},
               {"made_at", time(plan_.made_at)},
               {"from", time(plan_.from)},
               {"by", time(plan_.by)},
               {"time_zone", zone_.name()},
               {"confidence", rounded(plan_.confidence)},
               {"complete", plan_.complete},
               {"fits", plan_.fits},
               {"finish", time(finish)},
               {"slack_minutes", finish ? Json(minutes_of(plan_.by - *finish)) : Json(nullptr)},
               {"chance", rounded(plan_.chance)},
               {"bound", time(plan_.bound)},
               {"gap_minutes", has_gap ? Json(minutes_of(*finish - *plan_.bound)) : Json(nullptr)},
               {"lateness_minutes", late ? Json(minutes_of(late->weighted)) : Json(nullptr)},
               {"lateness_bound_minutes", late ? Json(minutes_of(late->bound)) : Json(nullptr)},
               {"search", {{"seed", seed}, {"nodes", nodes}, {"stopped_by", stopped_by}}},
               {"shop", shop()}};
  json["pieces"] = array_of(plan_.pieces, [&](const PlanPiece& p) { return piece(p); });
  json["air"] = array_of(plan_.air, [&](const AirKnot& k) { return knot(k); });
  json["steps"] = array_of(plan_.steps, [&](const PlanStep& s) { return step(s); });
  json["milestones"] = array_of(plan_.milestones, [&](const Milestone& m) {
    return Json{{"piece", m.piece},
                {"part", m.part},
                {"stage", m.stage},
                {"at", time(m.at)},
                {"source", m.source}};
  });
  json["preparations"] = array_of(plan_.preparations, [&](const PlanPreparation& p) {
    return Json{{"when", name_of(p.when)},
                {"products", p.products},
                {"text", p.text},
                {"begin_by", time(p.begin_by)},
                {"low_hours", rounded(p.low.hours())},
                {"high_hours", rounded(p.high.hours())},
                {"source", p.source}};
  });
  json["quantities"] =
      array_of(plan_.quantities, [&](const PlannedQuantity& q) { return quantity(q); });
  json["warnings"] = array_of(plan_.warnings, warning_json);
  json["hold_ups"] = array_of(plan_.hold_ups, hold_up_json);
  json["shortages"] = array_of(plan_.shortages, shortage_json);
  json["shared_waits"] = array_of(plan_.shared_waits, shared_wait_json);
  json["rates"] = array_of(plan_.rates, rate_json);
  json["vapour"] = plan_.room ? room(*plan_.room) : Json(nullptr);
  json["odds"] = plan_.odds ? odds_json(*plan_.odds) : Json(nullptr);
  json["changes"] = plan_.changes ? changes(*plan_.changes) : Json(nullptr);
  return json;
}

}  // namespace

std::string plan_as_json(const Plan& plan, const Zone& zone) {
  // A name that is not UTF-8 is shown with replacement marks rather than refused.
  constexpr int kIndent = 2;
  return PlanWriter(plan, zone).whole().dump(kIndent, ' ', false, Json::error_handler_t::replace) +
         "\n";
}

}  // namespace coatwright
