#include "cli/story_command.h"

#include <array>
#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "air/moist_air.h"
#include "cli/log_words.h"
#include "report/csv.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

/// The options of `story`, as typed.
struct StoryOptions {
  std::string piece;
  bool csv = false;
};

std::string as_text(const std::string& piece,
                    const std::vector<LogEntry>& entries,
                    const Session& session) {
  if (entries.empty()) {
    return wrap(fmt::format("Nothing is logged of the piece '{}' yet.", piece), 0, 0);
  }
  std::string text = underlined(piece, '=');
  for (const LogEntry& entry : entries) {
    text += entry_as_text(entry, session);
  }
  return text;
}

std::string as_json(const std::string& piece,
                    const std::vector<LogEntry>& entries,
                    const Session& session) {
  nlohmann::ordered_json list = nlohmann::ordered_json::array();
  for (const LogEntry& entry : entries) {
    list.push_back(entry_as_json(entry, session));
  }
  return json_page({{"piece", piece}, {"entries", list}});
}

constexpr std::array kColumns = {"number",     "at",          "kind",      "step",
                                 "grit",       "part",        "face",      "product",
                                 "revision",   "amount_l",    "abraded",   "temp_c",
                                 "rh_percent", "dew_point_c", "air_from",  "verdict",
                                 "findings",   "by",          "batch",     "note",
                                 "why",        "logged_at",   "struck_at", "struck_why",
                                 "touch",      "stage",       "reached",   "wood_moisture_percent",
                                 "outcome",    "photo"};

std::vector<CsvCell> air_cells(const std::optional<LoggedAir>& air) {
  if (!air) {
    return std::vector<CsvCell>(4, CsvCell::text(""));
  }
  const Temperature dew = dew_point(air->temperature, air->humidity);
  return {CsvCell::number(fmt::format("{:.2f}", air->temperature.celsius())),
          CsvCell::number(fmt::format("{:.1f}", air->humidity.percent())),
          CsvCell::number(fmt::format("{:.2f}", dew.celsius())),
          CsvCell::text(name_of(air->origin))};
}

/// The worst finding's name, and all of them in one text.
std::vector<CsvCell> verdict_cells(const std::vector<LoggedFinding>& findings) {
  std::string all;
  for (const LoggedFinding& finding : findings) {
    all += fmt::format("{}{}: {}", all.empty() ? "" : "; ", verdict_head(finding), finding.text);
  }
  return {CsvCell::text(findings.empty() ? "" : findings.front().kind), CsvCell::text(all)};
}

/// What was found, and the photo.
std::vector<CsvCell> found_cells(const LogEntry& entry) {
  const auto& touch = entry.touch;
  return {CsvCell::text(touch ? touch->words : ""),
          CsvCell::text(touch ? name_of(touch->stage) : ""),
          CsvCell::text(!touch           ? ""
                        : touch->reached ? "yes"
                                         : "no"),
          CsvCell::number(entry.moisture ? fmt::format("{:.2f}", 100.0 * *entry.moisture) : ""),
          CsvCell::text(entry.outcome),
          CsvCell::text(entry.photo)};
}

std::vector<CsvCell> cells_of(const LogEntry& entry, const Zone& zone) {
  const bool is_coat = entry.kind == LogKind::kCoat;
  std::vector<CsvCell> cells = {
      CsvCell::number(std::to_string(entry.id)),
      CsvCell::text(show_rfc3339(entry.at, zone)),
      CsvCell::text(name_of(entry.kind)),
      CsvCell::text(entry.step),
      CsvCell::text(entry.grit),
      CsvCell::text(entry.part),
      CsvCell::text(entry.face),
      CsvCell::text(entry.product),
      CsvCell::text(entry.revision),
      CsvCell::number(entry.amount ? fmt::format("{:.4f}", entry.amount->litres()) : ""),
      CsvCell::text(!is_coat        ? ""
                    : entry.abraded ? "yes"
                                    : "no")};
  const auto add = [&cells](const std::vector<CsvCell>& more) {
    cells.insert(cells.end(), more.begin(), more.end());
  };
  add(air_cells(entry.air));
  add(verdict_cells(entry.findings));
  add({CsvCell::text(entry.by),
       CsvCell::text(entry.batch),
       CsvCell::text(entry.note),
       CsvCell::text(entry.why),
       CsvCell::text(show_rfc3339(entry.logged_at, zone)),
       CsvCell::text(entry.strike ? show_rfc3339(entry.strike->at, zone) : ""),
       CsvCell::text(entry.strike ? entry.strike->why : "")});
  add(found_cells(entry));
  return cells;
}

std::string as_csv(const std::vector<LogEntry>& entries, const Zone& zone) {
  std::vector<CsvCell> headings;
  headings.reserve(kColumns.size());
  for (const char* name : kColumns) {
    headings.push_back(CsvCell::text(name));
  }
  std::string table = csv_record(headings);
  for (const LogEntry& entry : entries) {
    table += csv_record(cells_of(entry, zone));
  }
  return table;
}

Result<ExitCode> run_story(const StoryOptions& options, const GlobalOptions& global) {
  if (options.csv && global.json) {
    return fail(ErrorCode::kUsage, "--csv and --json exclude each other");
  }
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto entries = session->store.log(options.piece);
  if (!entries) {
    return pass_on(entries.error());
  }
  print_out(options.csv     ? as_csv(*entries, session->zone)
            : session->json ? as_json(options.piece, *entries, *session)
                            : as_text(options.piece, *entries, *session));
  return ExitCode::kDone;
}

}  // namespace

void add_story(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App* command = app.add_subcommand("story", "Show what was done to a piece, in order");
  auto options = std::make_shared<StoryOptions>();
  command->add_option("piece", options->piece, "The piece")->required()->type_name("");
  command->add_flag("--csv", options->csv, "Give it as a table for spreadsheets");
  command->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_story(*options, global); }; });
}

}  // namespace coatwright
