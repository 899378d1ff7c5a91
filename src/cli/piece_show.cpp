#include "cli/piece_show.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/quantity_text.h"
#include "report/text_table.h"

namespace coatwright {
namespace {

using nlohmann::ordered_json;

std::string show(PieceFaces faces) {
  switch (faces) {
    case PieceFaces::kOne:
      return "1";
    case PieceFaces::kTwo:
      return "2";
    case PieceFaces::kOnPoints:
      break;
  }
  return "points";
}

std::string show_or(const std::optional<Time>& time, const std::string& none, const Zone& zone) {
  return time ? show_full(*time, zone) : none;
}

std::string show_surface(const StoredPiece& piece) {
  return piece.over ? fmt::format("{} lies on it", *piece.over) : piece.surface;
}

std::string units_as_text(const StoredPiece& piece, const Session& session) {
  TextTable table({{"finished as"},
                   {"area", TextTable::Align::kRight},
                   {"faces"},
                   {"rack", TextTable::Align::kRight},
                   {"schedule"},
                   {"parts"}});
  for (const StoredUnit& unit : piece.units) {
    table.add({unit.name,
               show_area(unit.area, session.units),
               show(unit.faces),
               fmt::format("{}", unit.rack_places),
               unit.schedule.empty() ? piece.schedule : unit.schedule,
               unit.parts});
  }
  return table.text(2);
}

/// The names of the units that a work is on; "all".
std::string units_of(const StoredWork& work, const StoredPiece& piece) {
  if (work.units.size() == piece.units.size()) {
    return "all";
  }
  std::string names;
  for (const int unit : work.units) {
    names += (names.empty() ? "" : ", ") + piece.units[static_cast<std::size_t>(unit)].name;
  }
  return names;
}

std::string when_of(const StoredWork& work) {
  return work.before_finish ? "before finishing"
                            : fmt::format("after finishing, {}", name_of(work.needs));
}

std::string work_as_text(const StoredPiece& piece) {
  TextTable table({{"work"},
                   {"kind"},
                   {"on"},
                   {"when"},
                   {"min", TextTable::Align::kRight},
                   {"people", TextTable::Align::kRight},
                   {"bench"},
                   {"glue"}});
  for (const StoredWork& work : piece.work) {
    table.add({work.name,
               work.kind,
               units_of(work, piece),
               when_of(work),
               fmt::format("{:.0f}", work.work.minutes()),
               fmt::format("{}", work.people),
               work.at_bench ? "yes" : "no",
               work.glue});
  }
  return table.text(2);
}

std::string as_text(const StoredPiece& piece, const Session& session) {
  const auto line = [](std::string_view words, const std::string& value) {
    return fmt::format("  {:<9} {}\n", words, value);
  };
  return piece.name + "\n" + line("schedule", piece.schedule) + line("species", piece.species) +
         line("area", show_area(piece.area, session.units) + " a face") +
         line("faces", show(piece.faces)) + line("surface", show_surface(piece)) +
         line("from", show_or(piece.earliest, "as soon as there is time", session.zone)) +
         line("by", show_or(piece.due, "no date", session.zone)) +
         (piece.weight == 1.0 ? "" : line("weight", fmt::format("{:g}", piece.weight))) +
         (piece.units.empty() ? "" : "\n" + units_as_text(piece, session)) +
         (piece.work.empty() ? "" : "\n" + work_as_text(piece));
}

ordered_json text_or_null(const std::string& text) {
  return text.empty() ? ordered_json(nullptr) : ordered_json(text);
}

ordered_json unit_as_json(const StoredUnit& unit) {
  return {{"name", unit.name},
          {"area_m2", rounded(unit.area.square_metres(), 4)},
          {"faces", show(unit.faces)},
          {"rack_places", unit.rack_places},
          {"schedule", text_or_null(unit.schedule)},
          {"parts", unit.parts}};
}

ordered_json work_as_json(const StoredWork& work, const StoredPiece& piece) {
  ordered_json on = ordered_json::array();
  for (const int unit : work.units) {
    on.push_back(piece.units[static_cast<std::size_t>(unit)].name);
  }
  return {
      {"kind", work.kind},
      {"name", work.name},
      {"units", on},
      {"when", work.before_finish ? "before finishing" : "after finishing"},
      {"minutes", rounded(work.work.minutes(), 2)},
      {"people", work.people},
      {"bench", work.at_bench},
      {"glue", text_or_null(work.glue)},
      {"needs", work.before_finish ? ordered_json(nullptr) : ordered_json(name_of(work.needs))}};
}

ordered_json as_json(const StoredPiece& piece, const Session& session) {
  ordered_json whole = {{"name", piece.name},
                        {"species", piece.species},
                        {"schedule", piece.schedule},
                        {"area_m2", rounded(piece.area.square_metres(), 4)},
                        {"faces", show(piece.faces)},
                        {"surface", piece.surface},
                        {"over", piece.over ? ordered_json(*piece.over) : ordered_json()},
                        {"from", nullptr},
                        {"by", nullptr},
                        {"weight", piece.weight},
                        {"units", ordered_json::array()},
                        {"work", ordered_json::array()}};
  if (piece.earliest) {
    whole["from"] = show_rfc3339(*piece.earliest, session.zone);
  }
  if (piece.due) {
    whole["by"] = show_rfc3339(*piece.due, session.zone);
  }
  for (const StoredUnit& unit : piece.units) {
    whole["units"].push_back(unit_as_json(unit));
  }
  for (const StoredWork& work : piece.work) {
    whole["work"].push_back(work_as_json(work, piece));
  }
  return whole;
}

std::string list_as_text(const std::vector<StoredPiece>& pieces, const Session& session) {
  if (pieces.empty()) {
    return "No piece is stored; add one with `piece add`.\n";
  }
  TextTable table({{"piece"},
                   {"schedule"},
                   {"species"},
                   {"area", TextTable::Align::kRight},
                   {"faces"},
                   {"by"}});
  for (const StoredPiece& piece : pieces) {
    table.add({piece.name,
               piece.schedule,
               piece.species,
               show_area(piece.area, session.units),
               show(piece.faces),
               show_or(piece.due, "no date", session.zone)});
  }
  return table.text();
}

}  // namespace

std::string piece_page(const StoredPiece& piece, const Session& session) {
  return session.json ? as_json(piece, session).dump(2) + "\n" : as_text(piece, session);
}

std::string pieces_page(const std::vector<StoredPiece>& pieces, const Session& session) {
  if (!session.json) {
    return list_as_text(pieces, session);
  }
  ordered_json whole = ordered_json::array();
  for (const StoredPiece& piece : pieces) {
    whole.push_back(as_json(piece, session));
  }
  return whole.dump(2) + "\n";
}

}  // namespace coatwright
