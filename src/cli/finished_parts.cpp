#include "cli/finished_parts.h"

#include <algorithm>

#include "cli/plan_request.h"
#include "recipe/building_job.h"

namespace coatwright {
namespace {

/// @param unit of the piece; null: the piece as a whole.
Result<FinishedPart> finished_part(const StoredPiece& piece,
                                   const StoredUnit* unit,
                                   const RecipeBook& book,
                                   const Session& session) {
  auto request = piece_request_of(unit == nullptr ? piece : piece.only(*unit), book);
  if (!request) {
    return pass_on(request.error(), piece.name);
  }
  auto log = read_piece_log(piece, book, session, unit);
  if (!log) {
    return pass_on(log.error());
  }
  request->log = log->works;
  return FinishedPart{unit == nullptr ? std::string(kWholeUnit) : unit->name,
                      piece.units.size() < 2 ? piece.name : piece.name + ", " + unit->name,
                      std::move(*request),
                      std::move(*log),
                      unit == nullptr ? 1 : unit->rack_places};
}

/// The units of a piece; null alone where it is finished as a whole.
std::vector<const StoredUnit*> units_of(const StoredPiece& piece) {
  std::vector<const StoredUnit*> units;
  for (const StoredUnit& unit : piece.units) {
    units.push_back(&unit);
  }
  return units.empty() ? std::vector<const StoredUnit*>{nullptr} : units;
}

}  // namespace

Result<std::deque<FinishedPart>> finished_parts(const StoredPiece& piece,
                                                const RecipeBook& book,
                                                const Session& session) {
  std::deque<FinishedPart> parts;
  for (const StoredUnit* unit : units_of(piece)) {
    auto part = finished_part(piece, unit, book, session);
    if (!part) {
      return pass_on(part.error());
    }
    parts.push_back(std::move(*part));
  }
  return parts;
}

Result<std::vector<const Schedule*>> schedules_of(const StoredPiece& piece,
                                                  const RecipeBook& book) {
  std::vector<const Schedule*> schedules;
  for (const StoredUnit* unit : units_of(piece)) {
    const auto request = piece_request_of(unit == nullptr ? piece : piece.only(*unit), book);
    if (!request) {
      return pass_on(request.error());
    }
    schedules.push_back(request->schedule);
  }
  return schedules;
}

void add_new(const std::vector<std::string>& more, std::vector<std::string>& texts) {
  for (const std::string& text : more) {
    if (std::find(texts.begin(), texts.end(), text) == texts.end()) {
      texts.push_back(text);
    }
  }
}

}  // namespace coatwright
