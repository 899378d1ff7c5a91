#pragma once

#include <string>

#include "base/zone.h"
#include "store/store.h"

/// Pieces and log entries to try the store with.
namespace coatwright::samples {

inline Time at(const std::string& text) {
  return parse_rfc3339(text).value();
}

inline StoredPiece piece(const std::string& name) {
  StoredPiece piece;
  piece.name = name;
  piece.species = "red-oak";
  piece.schedule = "stain-and-lacquer";
  piece.area = Area::from_square_metres(1.9);
  piece.created_at = at("2027-03-01T08:00:00Z");
  return piece;
}

inline LogEntry step(const std::string& piece, const std::string& kind, Time time) {
  LogEntry entry;
  entry.piece = piece;
  entry.step = kind;
  entry.at = time;
  entry.logged_at = time;
  return entry;
}

inline LoggedFinding early_finding() {
  return {"early",
          std::chrono::minutes(200),
          at("2027-03-06T13:20:00Z"),
          0.31,
          "it needs 24 h",
          "Solvent may be trapped.",
          "Wait before the next coat.",
          "judgement"};
}

/// A coat with every field set.
inline LogEntry coat(const std::string& piece, Time time) {
  LogEntry entry = step(piece, "apply", time);
  entry.kind = LogKind::kCoat;
  entry.product = "dewaxed-shellac";
  entry.part = "top";
  entry.face = "front";
  entry.amount = Volume::from_litres(0.2);
  entry.by = "Ines";
  entry.batch = "7";
  entry.note = "thin";
  entry.abraded = true;
  entry.air = LoggedAir{
      Temperature::from_celsius(19.5), RelativeHumidity::from_percent(45), AirOrigin::kUsualDay};
  entry.logged_at = time + std::chrono::minutes(5);
  entry.findings = {early_finding(), {"outside limits", {}, {}, 1.0, "12 C", "", "", "label"}};
  return entry;
}

}  // namespace coatwright::samples
