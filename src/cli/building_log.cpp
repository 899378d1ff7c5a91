#include "cli/building_log.h"

#include <algorithm>
#include <map>

namespace coatwright {
namespace {

/// The source of working times that a part list gives.
constexpr std::string_view kPartListSource = "part-list";

Result<BuildWork> build_work_of(const StoredWork& stored, const RecipeBook& book) {
  BuildWork work;
  const auto kind = step_kind_named(stored.kind);
  if (!kind) {
    return fail(ErrorCode::kStore,
                "its work '" + stored.name + "' is of a kind that this version does not know, '" +
                    stored.kind + "'");
  }
  if (!stored.glue.empty()) {
    const auto glue = book.glue(stored.glue);
    if (!glue) {
      return pass_on(glue.error(), stored.name);
    }
    work.glue = *glue;
  }
  work.kind = *kind;
  work.name = stored.name;
  work.parts = stored.units;
  work.before_finish = stored.before_finish;
  work.work = stored.work;
  work.people = stored.people;
  work.at_bench = stored.at_bench;
  work.needs = stored.needs;
  work.source = kPartListSource;
  return work;
}

/// Matches a piece's work with its log.
class BuildingLog {
 public:
  explicit BuildingLog(const std::deque<FinishedPart>& parts) : parts_(parts) {}

  /// @return whether work is still there for a plan: to be done, or done with clamps that may be
  /// on.
  bool take(BuildWork& work) {
    std::vector<const LoggedWork*> entries;
    for (const int part : work.parts) {
      if (const LoggedWork* entry = next_of(work.kind, part)) {
        entries.push_back(entry);
      }
    }
    if (entries.size() < work.parts.size()) {
      return !work.before_finish || !any_has_coat(work);
    }
    bool left_out = false;
    Time at = entries.front()->at;
    for (const LoggedWork* entry : entries) {
      at = std::max(at, entry->at);
      left_out = left_out || entry->left_out;
    }
    for (const int part : work.parts) {
      ++taken_[{part, work.kind}];
    }
    work.done_at = at;
    return !left_out;
  }

 private:
  /// The first entry of a kind on a part that no work took yet; sanding with a grit is the
  /// schedule's.
  [[nodiscard]] const LoggedWork* next_of(StepKind kind, int part) const {
    const auto taken = taken_.find({part, kind});
    int left = taken == taken_.end() ? 0 : taken->second;
    for (const LoggedWork& entry : parts_[static_cast<std::size_t>(part)].request.log) {
      if (entry.kind == kind && entry.grit.empty() && left-- == 0) {
        return &entry;
      }
    }
    return nullptr;
  }

  [[nodiscard]] bool any_has_coat(const BuildWork& work) const {
    return std::any_of(work.parts.begin(), work.parts.end(), [&](int part) {
      const auto& log = parts_[static_cast<std::size_t>(part)].request.log;
      return std::any_of(log.begin(), log.end(), [](const LoggedWork& entry) {
        return entry.kind == StepKind::kApply && !entry.left_out;
      });
    });
  }

  const std::deque<FinishedPart>& parts_;
  std::map<std::pair<int, StepKind>, int> taken_;  ///< Entries, by part and kind.
};

}  // namespace

Result<std::vector<BuildWork>> building_work_of(const StoredPiece& piece,
                                                const std::deque<FinishedPart>& parts,
                                                const RecipeBook& book) {
  std::vector<BuildWork> works;
  BuildingLog log(parts);
  for (const StoredWork& stored : piece.work) {
    auto work = build_work_of(stored, book);
    if (!work) {
      return pass_on(work.error());
    }
    if (log.take(*work)) {
      works.push_back(std::move(*work));
    }
  }
  return works;
}

}  // namespace coatwright
