#include "report/part_rows.h"

#include <algorithm>

namespace coatwright {
namespace {

std::size_t place_of(const Plan& plan, const std::string& piece) {
  const auto found = std::find_if(plan.pieces.begin(),
                                  plan.pieces.end(),
                                  [&](const PlanPiece& one) { return one.name == piece; });
  return static_cast<std::size_t>(found - plan.pieces.begin());
}

}  // namespace

std::vector<PartRow> part_rows(const Plan& plan) {
  std::vector<PartRow> rows;
  for (const PlanStep* step : steps_in_order(plan)) {
    if (step->piece.empty()) {
      continue;
    }
    const std::string label = part_label(step->piece, step->part);
    auto row = std::find_if(
        rows.begin(), rows.end(), [&](const PartRow& one) { return one.label == label; });
    if (row == rows.end()) {
      row = rows.insert(rows.end(), {label, {}, step->start, step->end});
    }
    row->steps.push_back(step);
    row->ended = std::max(row->ended, step->end);
  }
  // The parts of a piece one beneath the other.
  std::stable_sort(rows.begin(), rows.end(), [&](const PartRow& a, const PartRow& b) {
    return place_of(plan, a.steps.front()->piece) < place_of(plan, b.steps.front()->piece);
  });
  return rows;
}

}  // namespace coatwright
