#include "cli/fault_case.h"

#include <algorithm>
#include <array>
#include <utility>

#include "air/moist_air.h"
#include "cli/piece_log.h"

namespace coatwright {
namespace {

/// The kind of a finding by its name; nothing for "not judged".
std::optional<VerdictKind> verdict_kind_named(std::string_view name) {
  constexpr std::array kKinds = {VerdictKind::kInWindow,
                                 VerdictKind::kEarly,
                                 VerdictKind::kLate,
                                 VerdictKind::kUnabraded,
                                 VerdictKind::kOutsideLimits,
                                 VerdictKind::kForbidden};
  const auto* found = std::find_if(
      kKinds.begin(), kKinds.end(), [name](VerdictKind kind) { return name_of(kind) == name; });
  return found == kKinds.end() ? std::nullopt : std::optional(*found);
}

std::vector<Finding> findings_of(const LogEntry& coat) {
  std::vector<Finding> findings;
  for (const LoggedFinding& kept : coat.findings) {
    if (const auto kind = verdict_kind_named(kept.kind)) {
      Finding& finding = findings.emplace_back();
      finding.kind = *kind;
      finding.by = kept.by;
      finding.moment = kept.moment;
      finding.chance = kept.chance.value_or(0.0);
      finding.text = kept.text;
      finding.may_happen = kept.may_happen;
      finding.to_do = kept.to_do;
      finding.source = kept.source;
    }
  }
  return findings;
}

std::optional<AirState> state_of(const std::optional<LoggedAir>& air) {
  if (!air) {
    return std::nullopt;
  }
  return AirState{
      air->temperature, air->humidity, dew_point(air->temperature, air->humidity), air->origin};
}

bool is_common(const std::vector<int>& a, const std::vector<int>& b) {
  return std::any_of(
      a.begin(), a.end(), [&](int face) { return std::find(b.begin(), b.end(), face) != b.end(); });
}

class CaseReader {
 public:
  CaseReader(const StoredPiece& piece, const RecipeBook& book, const Session& session)
      : piece_(piece), book_(book), session_(session) {
    const auto schedule = book.schedule(piece.schedule);
    schedule_ = schedule ? *schedule : nullptr;  // one that is gone says nothing of the film
  }

  Result<FaultCaseLog> read(const std::string& part, const std::string& face) {
    const auto entries = session_.store.log(piece_.name);
    if (!entries) {
      return pass_on(entries.error());
    }
    for (const LogEntry& entry : *entries) {
      const bool tells = entry.kind == LogKind::kCoat || entry.kind == LogKind::kStep ||
                         entry.kind == LogKind::kMoisture;
      if (tells && !entry.struck() && is_there(entry, part, face)) {
        if (const auto added = add(entry); !added) {
          return pass_on(added.error());
        }
      }
    }
    log_.piece.now = session_.now;
    log_.piece.came_in_finished = piece_.over.has_value();
    return with_wood();
  }

 private:
  [[nodiscard]] PieceFaces faces_of(const std::string& part) const {
    const StoredUnit* unit = piece_.unit(part);
    return unit == nullptr ? piece_.faces : unit->faces;
  }

  /// Whether an entry is of what is asked for.
  [[nodiscard]] bool is_there(const LogEntry& entry,
                              const std::string& part,
                              const std::string& face) const {
    const bool one_part = part.empty() || entry.part.empty() || entry.part == part;
    const PieceFaces faces = faces_of(part.empty() ? entry.part : part);
    return one_part && is_common(faces_by_number(face, faces), faces_by_number(entry.face, faces));
  }

  /// Of one face; none where the entry is of a part whose size is not kept.
  [[nodiscard]] std::optional<Area> area_of(const std::string& part) const {
    if (const StoredUnit* unit = piece_.unit(part)) {
      return unit->area;
    }
    return part.empty() && piece_.units.empty() ? std::optional(piece_.area) : std::nullopt;
  }

  /// The schedule's step that lays a product; null where it has none.
  [[nodiscard]] const ScheduleStep* step_laying(const std::string& product) const {
    if (schedule_ == nullptr) {
      return nullptr;
    }
    for (const ScheduleStep& step : schedule_->steps) {
      if (step.kind == ScheduleStepKind::kCoat && step.product == product) {
        return &step;
      }
    }
    return nullptr;
  }

  Result<void> add(const LogEntry& entry) {
    if (entry.kind == LogKind::kMoisture && entry.moisture) {
      log_.piece.readings.push_back({entry.id, entry.at, entry.part, *entry.moisture * 100.0});
      return {};
    }
    const auto kind = step_kind_named(entry.step);
    if (!kind) {
      return {};  // of a version that knows more kinds of steps
    }
    TracedWork work;
    work.entry = entry.id;
    work.kind = *kind;
    work.at = entry.at;
    work.grit = entry.grit;
    work.part = entry.part;
    work.faces = faces_by_number(entry.face, faces_of(entry.part));
    if (entry.kind == LogKind::kCoat) {
      auto product = product_of_coat(entry, book_, session_);
      if (!product) {
        return pass_on(product.error());
      }
      work.product = &log_.products.emplace_back(std::move(*product));
      work.laid_by = step_laying(entry.product);
      work.findings = findings_of(entry);
      work.air = state_of(entry.air);
      work.amount = entry.amount;
      work.face_area = area_of(entry.part);
    }
    log_.piece.works.push_back(std::move(work));
    return {};
  }

  Result<FaultCaseLog> with_wood() {
    const auto species = book_.species(piece_.species);
    if (!species) {
      return pass_on(species.error());
    }
    const auto sanding = book_.sanding();
    if (!sanding) {
      return pass_on(sanding.error());
    }
    log_.piece.species = *species;
    log_.piece.sanding = *sanding;
    return std::move(log_);
  }

  const StoredPiece& piece_;
  const RecipeBook& book_;
  const Session& session_;
  const Schedule* schedule_ = nullptr;
  FaultCaseLog log_;
};

}  // namespace

Result<FaultCaseLog> read_fault_case(const StoredPiece& piece,
                                     const std::string& part,
                                     const std::string& face,
                                     const RecipeBook& book,
                                     const Session& session) {
  return CaseReader(piece, book, session).read(part, face);
}

}  // namespace coatwright
