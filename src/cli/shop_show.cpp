#include "cli/shop_show.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/vapour_text.h"

namespace coatwright {
namespace {

using nlohmann::ordered_json;

/// One setting as it is shown.
struct Row {
  std::string words;
  std::string key;
  std::string value;
  std::string is_default;  ///< Empty: the shop has set it; else what kind of default it is.
  ordered_json json;
};

/// Days in turn on which the same holds; of days with hours of their own one alone.
struct DayRow {
  DayRange days;
  SpecialDay special;
};

Row text_row(std::string words, std::string key, std::string value, std::string is_default) {
  ordered_json json = value;
  return {
      std::move(words), std::move(key), std::move(value), std::move(is_default), std::move(json)};
}

Row places_row(std::string words, std::string key, std::optional<int> places) {
  return {std::move(words),
          std::move(key),
          places ? fmt::format("{}", *places) : "any",
          places ? "" : "not short of them",
          places ? ordered_json(*places) : ordered_json(nullptr)};
}

/// What the shop says of its finishing room.
std::vector<Row> room_rows(const ShopSettings& shop, UnitSystem units) {
  const FinishingRoom& room = shop.room;
  return {text_row("room",
                   "room",
                   room.volume ? show_air_volume(*room.volume, units) : "not said",
                   room.volume ? "" : "set it with --room"),
          text_row("exhaust fan",
                   "fan",
                   room.fan ? show_air_flow(*room.fan, units) : "none",
                   room.fan ? "" : "default"),
          text_row("fan rated",
                   "fan_rated",
                   std::string(name_of(room.rating)),
                   room.rating == FanRating::kUnknown ? "default" : ""),
          text_row("mixing factor",
                   "mixing",
                   fmt::format("{:g}", room.mixing.number()),
                   room.mixing == MixingFactor::assumed() ? "default, assumed" : ""),
          text_row("ignition",
                   "ignition",
                   room.ignition.empty() ? "none named" : room.ignition,
                   room.ignition.empty() ? "default" : ""),
          text_row("emergency",
                   "emergency",
                   shop.emergency.empty() ? "not said" : shop.emergency,
                   shop.emergency.empty() ? "set it with --emergency" : ""),
          text_row("cabinet",
                   "cabinet",
                   shop.cabinet.value_or(false) ? "yes" : "no",
                   shop.cabinet ? "" : "default")};
}

/// @param hours as they were typed; their read form names every day on its own.
std::vector<Row> rows_of(const Session& session, const std::optional<std::string>& hours) {
  const ShopSettings& shop = session.shop;
  std::vector<Row> rows = {
      text_row("usual day",
               "usual_day",
               shop.usual_day_or_assumed().text(session.units),
               shop.usual_day ? "" : "default, assumed: set it with --usual-day"),
      text_row("hours",
               "hours",
               hours.value_or(std::string(kAssumedHours)),
               hours ? "" : "default, assumed"),
      text_row(
          "people", "people", shop.times_or_assumed().people.text(), shop.people ? "" : "default"),
      places_row("spray places", "spray_places", shop.spray_places),
      places_row("rack places", "rack_places", shop.rack_places),
      places_row("benches", "benches", shop.benches),
      text_row("finishing room",
               "finishing_room",
               shop.finishing_apart.value_or(false) ? "apart" : "shared",
               shop.finishing_apart ? "" : "default"),
      text_row("time zone",
               "time_zone",
               shop.time_zone.value_or(session.zone.name()),
               shop.time_zone ? "" : "default, of this machine or call"),
      text_row("units",
               "units",
               name_of(shop.units.value_or(session.units)),
               shop.units ? "" : "default"),
      text_row("learned recoat",
               "learned_recoat",
               shop.recoat_below_label.value_or(false) ? "as-tested" : "not-below-label",
               shop.recoat_below_label ? "" : "default")};
  for (Row& row : room_rows(shop, session.units)) {
    rows.push_back(std::move(row));
  }
  return rows;
}

std::vector<DayRow> day_rows_of(const SpecialDays& days) {
  std::vector<DayRow> rows;
  for (const auto& [day, special] : days) {
    const bool goes_on = !rows.empty() && rows.back().days.last + date::days(1) == day &&
                         special.open.empty() && rows.back().special.open.empty();
    if (goes_on) {
      rows.back().days.last = day;
    } else {
      rows.push_back({{day, day}, special});
    }
  }
  return rows;
}

std::string day_text(const DayRow& row) {
  std::string text = date_text(row.days.first);
  if (row.days.last != row.days.first) {
    text += ".." + date_text(row.days.last);
  }
  if (!row.special.open.empty()) {
    text += " " + day_hours_text(row.special.open);
  }
  return row.special.people ? fmt::format("{} {}", text, *row.special.people) : text;
}

ordered_json day_json(const DayRow& row) {
  ordered_json json = {{"first", date_text(row.days.first)},
                       {"last", date_text(row.days.last)},
                       {"hours", nullptr},
                       {"people", nullptr}};
  if (!row.special.open.empty()) {
    json["hours"] = day_hours_text(row.special.open);
  }
  if (row.special.people) {
    json["people"] = *row.special.people;
  }
  return json;
}

std::string as_text(const Session& session, const std::vector<Row>& rows) {
  std::string text;
  const auto add = [&text](std::string_view words, const std::string& value) {
    text += fmt::format("{:<14} {}\n", words, value);
  };
  for (const Row& row : rows) {
    add(row.words,
        row.is_default.empty() ? row.value : fmt::format("{}  ({})", row.value, row.is_default));
  }
  for (const DayRow& row : day_rows_of(session.shop.special_days)) {
    add(row.special.open.empty() ? "closed" : "open once", day_text(row));
  }
  add("store", session.store.path().string());
  return text;
}

std::string as_json(const Session& session, const std::vector<Row>& rows) {
  ordered_json whole;
  for (const Row& row : rows) {
    whole[row.key] = {{"value", row.json}, {"default", !row.is_default.empty()}};
  }
  whole["days"] = ordered_json::array();
  for (const DayRow& row : day_rows_of(session.shop.special_days)) {
    whole["days"].push_back(day_json(row));
  }
  whole["store"] = session.store.path().string();
  return whole.dump(2) + "\n";
}

}  // namespace

Result<ExitCode> run_shop_show(const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto hours = session->store.setting(ShopSetting::kHours);
  if (!hours) {
    return pass_on(hours.error());
  }
  const auto rows = rows_of(*session, *hours);
  print_out(session->json ? as_json(*session, rows) : as_text(*session, rows));
  return ExitCode::kDone;
}

}  // namespace coatwright
