#include "report/now_page.h"

#include <cctype>
#include <cmath>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/quantity_text.h"
#include "report/plan_words.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t kLabelWidth = 13;
constexpr std::chrono::hours kSoon{1};

std::string label_of(const StepNow& step, const NowView& view) {
  if (closes_soon(step, view.now)) {
    return "CLOSES SOON";
  }
  switch (step.readiness) {
    case Readiness::kOpen:
      return "OPEN";
    case Readiness::kMayBeDone:
      return "MAY BE DONE";
    case Readiness::kNotYet:
      return "NOT YET";
    case Readiness::kNever:
      break;
  }
  return "NEVER";
}

std::string moments_of(const StepNow& step, const NowView& view) {
  std::string text;
  const auto moment = [&](Time time) {
    return moment_text(shown_minute(time), view.now, view.zone);
  };
  if (step.opens_at && *step.opens_at > view.now) {
    text += step.readiness == Readiness::kOpen
                ? fmt::format(", from {} on", moment(*step.opens_at))
                : fmt::format(", not before {}", moment(*step.opens_at));
  } else if (step.readiness == Readiness::kNotYet && !step.opens_at && step.first.empty()) {
    text += ", not in sight within four weeks";
  }
  if (step.closes_at && step.readiness <= Readiness::kMayBeDone) {
    // A closing is shown rounded down: it is never later than it is.
    const Time closes = std::chrono::floor<std::chrono::minutes>(*step.closes_at);
    text += fmt::format(", before {}", moment_text(closes, view.now, view.zone));
  }
  return text;
}

std::string step_text(const StepNow& step, const NowView& view) {
  const std::string blanks(kLabelWidth + 2, ' ');
  std::string text = wrap(as_sentence(sentence_of(step) + moments_of(step, view)),
                          padded(label_of(step, view), kLabelWidth),
                          std::string(kLabelWidth, ' '));
  if (!step.reason.empty()) {
    text += wrap(as_sentence(step.reason), blanks, blanks);
  }
  if (!step.first.empty()) {
    const bool is_note = step.readiness == Readiness::kMayBeDone;
    text += wrap((is_note ? "Mind: " : "First: ") + as_sentence(step.first), blanks, blanks);
  }
  return text;
}

std::string stage_text(const Milestone& stage, const NowView& view) {
  if (stage.at <= view.now) {
    return "";
  }
  return wrap(fmt::format("{}: not before {}, by calculation only.",
                          use_at_stage(stage.stage),
                          moment_text(shown_minute(stage.at), view.now, view.zone)),
              padded("LATER", kLabelWidth),
              std::string(kLabelWidth, ' '));
}

std::string piece_text(const PieceNow& piece, const NowView& view) {
  std::string text = "\n" + underlined(piece.piece, '-');
  bool open = false;
  for (const StepNow& step : piece.steps) {
    text += step_text(step, view);
    open = open || step.readiness == Readiness::kOpen;
  }
  if (piece.steps.empty()) {
    text += "Every step of its schedule is logged.\n";
  }
  for (const Milestone& stage : piece.stages) {
    text += stage_text(stage, view);
  }
  for (const PlanWarning& warning : piece.warnings) {
    text += wrap(warning.text, "! ", "  ");
  }
  return text + (open ? "" : "No open step recorded.\n");
}

std::string air_text(const NowView& view) {
  std::string text = fmt::format("Air {}, {}, dew point {} ({}).",
                                 temperature_text(view.air.temperature, view.units),
                                 show_humidity(view.air.humidity),
                                 temperature_text(view.air.dew_point, view.units),
                                 name_of(view.air.origin));
  const bool measured =
      view.air.origin == AirOrigin::kReading || view.air.origin == AirOrigin::kLogger;
  return text + (measured ? "" : " Nobody read it: read it before a coat goes on.");
}

double rounded(double value) {
  return std::round(value * 1e3) / 1e3;
}

Json step_json(const StepNow& step, const NowView& view) {
  const auto time = [&](const std::optional<Time>& moment) {
    return moment ? Json(show_rfc3339(*moment, view.zone)) : Json(nullptr);
  };
  return {{"kind", name_of(step.kind)},
          {"product", step.product},
          {"coat", step.coat},
          {"face", step.face},
          {"grit", step.grit},
          {"work", step.work},
          {"readiness", name_of(step.readiness)},
          {"opens_at", time(step.opens_at)},
          {"closes_at", time(step.closes_at)},
          {"chance", rounded(step.chance)},
          {"reason", step.reason},
          {"first", step.first},
          {"source", step.source}};
}

Json piece_json(const PieceNow& piece, const NowView& view) {
  Json json = {{"piece", piece.piece},
               {"steps", Json::array()},
               {"stages", Json::array()},
               {"warnings", Json::array()}};
  for (const StepNow& step : piece.steps) {
    json["steps"].push_back(step_json(step, view));
  }
  for (const Milestone& stage : piece.stages) {
    json["stages"].push_back({{"stage", stage.stage},
                              {"at", show_rfc3339(stage.at, view.zone)},
                              {"source", stage.source}});
  }
  for (const PlanWarning& warning : piece.warnings) {
    json["warnings"].push_back(warning.text);
  }
  return json;
}

}  // namespace

bool closes_soon(const StepNow& step, Time now) {
  return step.closes_at && *step.closes_at - now <= kSoon &&
         (step.readiness == Readiness::kOpen || step.readiness == Readiness::kMayBeDone);
}

std::string sentence_of(const StepNow& step) {
  if (!step.work.empty()) {
    std::string text = step.work;
    text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
    return text;
  }
  PlanStep as_planned;
  as_planned.kind = step.kind;
  as_planned.part = "all";
  as_planned.face = step.face;
  as_planned.product = step.product;
  as_planned.product_title = step.product_title;
  as_planned.method = step.method;
  as_planned.coat = step.coat;
  as_planned.grit = step.grit;
  return sentence_of(Plan(), as_planned);
}

std::string show_now(const NowView& view) {
  std::string text = underlined(show_full(view.now, view.zone), '=') + wrap(air_text(view), 0, 0);
  for (const PieceNow& piece : view.pieces) {
    text += piece_text(piece, view);
  }
  return text;
}

std::string now_as_json(const NowView& view) {
  Json json = {{"format", "coatwright/now/1"},
               {"at", show_rfc3339(view.now, view.zone)},
               {"air",
                {{"temp_c", rounded(view.air.temperature.celsius())},
                 {"rh_percent", rounded(view.air.humidity.percent())},
                 {"dew_point_c", rounded(view.air.dew_point.celsius())},
                 {"from", name_of(view.air.origin)}}},
               {"pieces", Json::array()}};
  for (const PieceNow& piece : view.pieces) {
    json["pieces"].push_back(piece_json(piece, view));
  }
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace coatwright
