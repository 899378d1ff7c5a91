#include <cmath>

#include <nlohmann/json.hpp>

#include "report/advice_page.h"

namespace coatwright {
namespace {

using Json = nlohmann::ordered_json;

constexpr const char* kFormat = "coatwright/advice/1";

double rounded(double value) {
  constexpr double kParts = 1e6;
  return std::round(value * kParts) / kParts + 0.0;
}

double minutes_of(std::chrono::seconds span) {
  return rounded(std::chrono::duration<double, std::ratio<60>>(span).count());
}

Json time_json(const std::optional<Time>& time, const Zone& zone) {
  return time ? Json(show_rfc3339(*time, zone)) : Json(nullptr);
}

Json change_json(const Change& change, const Zone& zone) {
  Json openings = Json::array();
  for (const Interval& one : change.openings) {
    openings.push_back(
        {{"start", show_rfc3339(one.start, zone)}, {"end", show_rfc3339(one.end, zone)}});
  }
  const bool starts = change.kind == ChangeKind::kEarlierStart;
  return {{"kind", name_of(change.kind)},
          {"amount", change.amount},
          {"openings", std::move(openings)},
          {"start", starts ? time_json(change.start, zone) : Json(nullptr)},
          {"piece", change.piece},
          {"was", change.was},
          {"schedule", change.schedule ? Json(change.schedule->name) : Json(nullptr)},
          {"lacks", change.lacks}};
}

Json way_json(const Way& way, const Zone& zone) {
  Json changes = Json::array();
  for (const Change& change : way.changes) {
    changes.push_back(change_json(change, zone));
  }
  return {{"changes", std::move(changes)},
          {"finish", time_json(way.plan.finish, zone)},
          {"chance", rounded(way.plan.chance)},
          {"presence_hours", rounded(way.presence.hours())}};
}

Json standing_json(const DateAdvice& advice, const Zone& zone) {
  Json json = {{"format", kFormat},
               {"holds", advice.plan.fits},
               {"from", show_rfc3339(advice.plan.from, zone)},
               {"by", show_rfc3339(advice.plan.by, zone)},
               {"finish", time_json(advice.plan.finish, zone)},
               {"chance", rounded(advice.plan.chance)},
               {"confidence", rounded(advice.plan.confidence)},
               {"latest_start", time_json(advice.latest_start, zone)}};
  json["late"] = Json::array();
  for (const LaterDate& late : advice.late) {
    json["late"].push_back({{"piece", late.piece},
                            {"due", time_json(late.due, zone)},
                            {"finish", time_json(late.finish, zone)}});
  }
  return json;
}

}  // namespace

std::string advice_as_json(const DateAdvice& advice, const Zone& zone) {
  Json json = standing_json(advice, zone);
  json["ways"] = Json::array();
  for (const Way& way : advice.ways) {
    json["ways"].push_back(way_json(way, zone));
  }
  json["in_vain"] = Json::array();
  for (const InVain& one : advice.in_vain) {
    json["in_vain"].push_back(
        {{"change", change_json(one.best, zone)}, {"finish", time_json(one.finish, zone)}});
  }
  json["gains"] = Json::array();
  for (const Gain& gain : advice.gains) {
    json["gains"].push_back({{"change", change_json(gain.change, zone)},
                             {"finish", time_json(gain.finish, zone)},
                             {"earlier_minutes", minutes_of(gain.earlier)},
                             {"less_late_minutes", minutes_of(gain.less_late)}});
  }
  json["replans"] = advice.replans;
  json["stopped"] = advice.stopped;
  constexpr int kIndent = 2;
  return json.dump(kIndent, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace coatwright
