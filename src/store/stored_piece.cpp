#include "store/stored_piece.h"

namespace coatwright {

StoredPiece StoredPiece::only(const StoredUnit& unit) const {
  StoredPiece piece = *this;
  piece.schedule = unit.schedule.empty() ? schedule : unit.schedule;
  piece.area = unit.area;
  piece.faces = unit.faces;
  piece.units.clear();
  piece.work.clear();
  return piece;
}

const StoredUnit* StoredPiece::unit(const std::string& wanted) const {
  for (const StoredUnit& each : units) {
    if (each.name == wanted) {
      return &each;
    }
  }
  return nullptr;
}

}  // namespace coatwright
