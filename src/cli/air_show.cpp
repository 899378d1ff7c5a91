#include "cli/air_show.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/quantity_text.h"
#include "base/time_expression.h"
#include "report/air_chart.h"
#include "report/text_table.h"

namespace coatwright {
namespace {

using std::chrono::hours;

constexpr std::chrono::hours kDefaultReach{24};
constexpr std::chrono::hours kLongestSpan{24 * 60};
constexpr int kMostRows = 49;

/// The next moment that shows a full hour of the local clock.
Time full_hour_from(Time time, const Zone& zone) {
  return zone.to_time_leniently(date::ceil<hours>(zone.to_local(time)));
}

/// @return the shortest step of the row that keeps the table on a page or two.
hours step_for(std::chrono::seconds span) {
  for (const int step : {1, 2, 3, 6, 12}) {
    if (span / hours(step) < kMostRows) {
      return hours(step);
    }
  }
  return hours(24);
}

Result<Interval> span_of(const AirShowOptions& options, const Session& session) {
  Interval span{session.now - kDefaultReach, session.now + kDefaultReach};
  if (!options.from.empty()) {
    const auto from = parse_time(options.from, session.now, session.zone, Direction::kBack);
    if (!from) {
      return pass_on(from.error(), "--from");
    }
    span.start = *from;
    span.end = std::max(span.end, *from + kDefaultReach);
  }
  if (!options.to.empty()) {
    const auto to = parse_time(options.to, session.now, session.zone, Direction::kForward);
    if (!to) {
      return pass_on(to.error(), "--to");
    }
    span.end = *to;
    if (options.from.empty()) {
      span.start = std::min(span.start, *to - kDefaultReach);
    }
  }
  if (span.start >= span.end || span.end - span.start > kLongestSpan) {
    return fail(ErrorCode::kUsage,
                fmt::format("--from {} --to {}: the end must come after the start, by 60 days at "
                            "most",
                            show_rfc3339(span.start, session.zone),
                            show_rfc3339(span.end, session.zone)));
  }
  return span;
}

std::vector<AirAt> points_in(const Interval& span, const AirRecord& air) {
  const hours step = step_for(span.end - span.start);
  std::vector<AirAt> points;
  Time at = full_hour_from(span.start, air.zone());
  do {
    points.push_back({at, air.at(at)});
    at += step;
  } while (at <= span.end);
  return points;
}

std::string origin_text(AirOrigin origin, const ShopSettings& shop) {
  const bool assumed = origin == AirOrigin::kUsualDay && !shop.usual_day;
  return std::string(name_of(origin)) + (assumed ? " (assumed)" : "");
}

/// "Fri  5 Mar 16:00": short, and all of one width.
std::string short_time(Time time, const Zone& zone) {
  return date::format("%a %e %b %H:%M", zone.to_local(time));
}

std::string as_text(const std::vector<AirAt>& points, const Session& session) {
  using Align = TextTable::Align;
  TextTable table({{"time"},
                   {"air", Align::kRight},
                   {"humidity", Align::kRight},
                   {"dew point", Align::kRight},
                   {"spread", Align::kRight},
                   {"rests on"}});
  for (const AirAt& point : points) {
    const AirState& state = point.state;
    table.add({short_time(point.at, session.zone),
               show_temperature(state.temperature, session.units),
               show_humidity(state.humidity),
               show_temperature(state.dew_point, session.units),
               show_difference(state.spread(), session.units),
               origin_text(state.origin, session.shop)});
  }
  return fmt::format(
      "The shop's air from {} to {} ({})\n\n{}\n* air   o dew point   | now, {}\n\n{}",
      show_full(points.front().at, session.zone),
      show_full(points.back().at, session.zone),
      session.zone.name(),
      table.text(),
      show_full(session.now, session.zone),
      air_chart(points, session.now, session.zone, session.units));
}

nlohmann::ordered_json as_json(const std::vector<AirAt>& points, const Session& session) {
  nlohmann::ordered_json rows = nlohmann::ordered_json::array();
  for (const AirAt& point : points) {
    const AirState& state = point.state;
    rows.push_back({{"at", show_rfc3339(point.at, session.zone)},
                    {"temp_c", rounded(state.temperature.celsius(), 2)},
                    {"rh_percent", rounded(state.humidity.percent(), 1)},
                    {"dew_point_c", rounded(state.dew_point.celsius(), 2)},
                    {"spread_c", rounded(state.spread().kelvin(), 2)},
                    {"from", name_of(state.origin)}});
  }
  return {{"time_zone", session.zone.name()},
          {"usual_day_assumed", !session.shop.usual_day},
          {"air", rows}};
}

/// The answer about the cold piece, or nothing when none was asked for.
Result<std::optional<ColdPieceAnswer>> cold_piece_of(const AirShowOptions& options,
                                                     const GlobalOptions& global,
                                                     const Session& session,
                                                     Time until) {
  if (options.cold_piece.temperature.empty()) {
    return std::nullopt;
  }
  auto answer = reckon_cold_piece(options.cold_piece, global, session, until);
  if (!answer) {
    return pass_on(answer.error());
  }
  return *answer;
}

std::string whole_answer(const std::vector<AirAt>& points,
                         const std::optional<ColdPieceAnswer>& cold_piece,
                         const Session& session) {
  if (!session.json) {
    const std::string text = as_text(points, session);
    return cold_piece ? text + "\n" + cold_piece_as_text(*cold_piece, session) : text;
  }
  nlohmann::ordered_json whole = as_json(points, session);
  if (cold_piece) {
    whole["cold_piece"] = cold_piece_as_json(*cold_piece, session);
  }
  return whole.dump(2) + "\n";
}

}  // namespace

Result<ExitCode> run_air_show(const AirShowOptions& options, const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto span = span_of(options, *session);
  if (!span) {
    return pass_on(span.error());
  }
  const auto air = session->air(span->start, span->end);
  if (!air) {
    return pass_on(air.error());
  }
  const auto cold_piece = cold_piece_of(options, global, *session, span->end);
  if (!cold_piece) {
    return pass_on(cold_piece.error());
  }
  print_out(whole_answer(points_in(*span, *air), *cold_piece, *session));
  const bool is_no = *cold_piece && !(*cold_piece)->first;
  return is_no ? ExitCode::kNo : ExitCode::kDone;
}

}  // namespace coatwright
