#include "plan/safety_now.h"

#include <algorithm>

#include <fmt/format.h>

#include "plan/booth.h"

namespace coatwright {
namespace {

void hold_back(StepNow& step, std::string first, std::string source) {
  if (step.readiness != Readiness::kMayBeDone) {
    return;
  }
  step.readiness = Readiness::kNotYet;
  step.first = std::move(first);
  step.source = std::move(source);
}

/// Looking brings no vapour and no dust, and what is due at once is not kept waiting.
bool is_held_back_by_rags(StepKind kind) {
  return kind != StepKind::kWipe && kind != StepKind::kRags && kind != StepKind::kInspect;
}

/// The piece that a part is of, by which it is logged.
std::string logged_piece(const RoomNow& room, std::size_t part) {
  for (const NowBuilding& building : room.request.building) {
    if (std::find(building.parts.begin(), building.parts.end(), part) != building.parts.end()) {
      return building.piece;
    }
  }
  return room.pieces[part].piece->name;
}

/// The same of what is shown under a name.
std::string logged_piece(const RoomNow& room, const std::string& shown) {
  for (std::size_t i = 0; i < room.pieces.size(); ++i) {
    if (room.pieces[i].piece->name == shown) {
      return logged_piece(room, i);
    }
  }
  return shown;
}

void hold_back_for_rags(const RoomNow& room, std::vector<PieceNow>& pieces) {
  for (std::size_t i = 0; i < room.pieces.size(); ++i) {
    const Progress& progress = room.pieces[i].progress;
    if (!progress.rags_open || progress.rags_overruled) {
      continue;
    }
    const std::string first = fmt::format(
        "see to the oily rags of {0}, then `coatwright done rags --piece \"{1}\"`; or overrule it: "
        "`coatwright skip rags --piece \"{1}\" --why REASON`",
        room.pieces[i].piece->name,
        logged_piece(room, i));
    for (PieceNow& piece : pieces) {
      for (StepNow& step : piece.steps) {
        if (is_held_back_by_rags(step.kind)) {
          hold_back(step, first, progress.rags_of->hazards.source);
        }
      }
    }
  }
}

const Product* product_of(const StepNow& step, const RecipeBook& book) {
  const auto product =
      step.product.empty() ? Result<const Product*>(nullptr) : book.product(step.product);
  return product ? *product : nullptr;
}

void hold_back_from_ignition(RoomNow& room, std::vector<PieceNow>& pieces) {
  const std::string& ignition = room.request.room.ignition;
  if (ignition.empty()) {
    return;
  }
  for (PieceNow& piece : pieces) {
    for (StepNow& step : piece.steps) {
      const Product* product =
          step.kind == StepKind::kApply ? product_of(step, room.book) : nullptr;
      if (product != nullptr && product->hazards.flammable) {
        hold_back(
            step,
            fmt::format("its vapour ignites, and in the room there is: {}; take it out or shut "
                        "it off for good, then `coatwright shop set --ignition none`",
                        ignition),
            product->hazards.source);
      }
    }
  }
}

std::vector<BoothUse> booth_uses(const RoomNow& room) {
  std::vector<BoothUse> uses;
  for (const Standing& one : room.pieces) {
    for (const BoothUse& use : booth_uses_of(*one.piece, one.works)) {
      uses.push_back(use);
    }
  }
  std::stable_sort(uses.begin(), uses.end(), [](const BoothUse& a, const BoothUse& b) {
    return a.start < b.start;
  });
  return uses;
}

void hold_back_from_residue(RoomNow& room, std::vector<PieceNow>& pieces) {
  const BoothResidue lies =
      residue_before(booth_uses(room), room.request.now + std::chrono::seconds(1));
  for (PieceNow& piece : pieces) {
    for (StepNow& step : piece.steps) {
      const Product* product =
          step.method == name_of(Method::kSpray) ? product_of(step, room.book) : nullptr;
      if (product != nullptr && ignite_together(lies, residue_of(*product, Method::kSpray))) {
        hold_back(
            step,
            fmt::format("clean the booth, every deposit out and new filters: what lies in it "
                        "can ignite with this; then `coatwright done clean_booth --piece "
                        "\"{0}\"`, or overrule it: `coatwright skip clean_booth --piece \"{0}\" "
                        "--why REASON`",
                        logged_piece(room, piece.piece)),
            "osha_1910_107");
      }
    }
  }
}

}  // namespace

void hold_back_unsafe(RoomNow& room, std::vector<PieceNow>& pieces) {
  hold_back_for_rags(room, pieces);
  hold_back_from_ignition(room, pieces);
  hold_back_from_residue(room, pieces);
}

}  // namespace coatwright
