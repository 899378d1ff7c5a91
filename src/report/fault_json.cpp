#include <cmath>

#include <nlohmann/json.hpp>

#include "report/fault_page.h"

namespace coatwright {
namespace {

using Json = nlohmann::ordered_json;

constexpr const char* kFormat = "coatwright/why/1";

double rounded(double value) {
  constexpr double kParts = 1e3;
  return std::round(value * kParts) / kParts + 0.0;
}

Json text_or_null(const std::string& text) {
  return text.empty() ? Json(nullptr) : Json(text);
}

Json defect_json(const Defect& defect) {
  return {{"name", defect.name},
          {"title", defect.title},
          {"cause", defect.cause},
          {"threshold", defect.threshold},
          {"remedy", defect.remedy},
          {"prevention", defect.prevention},
          {"source", defect.source},
          {"how", defect.how}};
}

Json suspect_json(const Suspect& suspect, const Zone& zone) {
  const TracedWork& coat = *suspect.coat;
  const DefectTrigger& trigger = *suspect.trigger;
  return {{"entry", coat.entry},
          {"product", coat.product->name},
          {"part", text_or_null(coat.part)},
          {"at", show_rfc3339(coat.at, zone)},
          {"sign", name_of(trigger.sign)},
          {"speaks", suspect.strong ? "strongly" : "weakly"},
          {"chance_right", suspect.chance ? Json(rounded(*suspect.chance)) : Json(nullptr)},
          {"off_seconds", suspect.off.count()},
          {"found", suspect.found},
          {"found_source", text_or_null(suspect.source)},
          {"told_then", text_or_null(suspect.to_do)},
          {"because", trigger.because},
          {"prevention", trigger.prevention},
          {"source", trigger.source},
          {"how", trigger.how}};
}

}  // namespace

std::string fault_as_json(const FaultAnswer& answer, const Zone& zone) {
  Json suspects = Json::array();
  for (const Suspect& suspect : answer.suspects) {
    suspects.push_back(suspect_json(suspect, zone));
  }
  const Json whole = {{"format", kFormat},
                      {"piece", answer.piece},
                      {"part", text_or_null(answer.part)},
                      {"face", text_or_null(answer.face)},
                      {"defect", defect_json(*answer.defect)},
                      {"coats", answer.coats},
                      {"coats_befallen", answer.befallen},
                      {"suspects", std::move(suspects)}};
  return whole.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace coatwright
