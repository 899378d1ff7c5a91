#include "cli/coat_beneath.h"

#include <algorithm>

namespace coatwright {

bool CoatedSpot::is_in(const LogEntry& entry) const {
  const bool on_part = entry.part.empty() || (part.empty() && !rest) || part == entry.part;
  const auto on_faces = faces_meant(entry.face, faces);
  return on_part && std::find(on_faces.begin(), on_faces.end(), face) != on_faces.end();
}

std::vector<std::string> faces_meant(const std::string& face, PieceFaces faces) {
  if (face == "front" || face == "back") {
    return {face};
  }
  return face.empty() && faces == PieceFaces::kOne ? std::vector<std::string>{"front"}
                                                   : std::vector<std::string>{"front", "back"};
}

CoatBeneath coat_beneath_at(const CoatedSpot& spot, Time at, const std::vector<LogEntry>& log) {
  CoatBeneath beneath;
  for (const LogEntry& entry : log) {
    if (entry.at > at || entry.struck() || !spot.is_in(entry)) {
      continue;
    }
    if (entry.kind == LogKind::kCoat) {
      beneath = {&entry, entry.at, false};
    } else if (entry.kind == LogKind::kStep) {
      // Without a coat this is of a finish that the piece came in with; bare wood does not ask.
      beneath.abraded = beneath.abraded || entry.step == "abrade" || entry.step == "sand";
      beneath.ended = entry.step == "wipe" ? entry.at : beneath.ended;
    }
  }
  return beneath;
}

std::vector<CoatBeneath> coats_beneath(const LogEntry& entry,
                                       PieceFaces faces,
                                       const std::vector<LogEntry>& log) {
  std::vector<CoatBeneath> all;
  for (const std::string& face : faces_meant(entry.face, faces)) {
    const CoatBeneath beneath = coat_beneath_at({entry.part, face, faces}, entry.at, log);
    if (std::find(all.begin(), all.end(), beneath) == all.end()) {
      all.push_back(beneath);
    }
  }
  return all;
}

void set_scheduled_film(const StoredPiece& piece, const RecipeBook& book, LaidCoat& coat) {
  const auto schedule = book.schedule(piece.schedule);
  if (!schedule) {
    return;  // a schedule that is gone says nothing of the film
  }
  for (const ScheduleStep& step : (*schedule)->steps) {
    if (step.kind == ScheduleStepKind::kCoat && step.product == coat.product->name) {
      set_film(coat, step);
      return;
    }
  }
}

}  // namespace coatwright
