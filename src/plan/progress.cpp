#include "plan/progress.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace coatwright {
namespace {

using std::chrono::seconds;

seconds seconds_of(Hours hours) {
  return seconds(std::llround(hours.hours() * 3600.0));
}

/// Each text once, whatever the number of faces.
void add_warning(std::string text, Progress& progress) {
  const bool said = std::any_of(progress.warnings.begin(),
                                progress.warnings.end(),
                                [&](const PlanWarning& one) { return one.text == text; });
  if (!said) {
    progress.warnings.push_back({"log", std::move(text), std::nullopt});
  }
}

/// When a coat's underlying one was ready for it; nothing when the pair is unknown or never is.
std::optional<Time> ready_for(const LaidCoat& coat,
                              const LaidCoat& under,
                              const RecipeBook& book,
                              DryingClocks& clocks,
                              const WaitRule& rule) {
  const auto pair = book.pair(*under.product, *coat.product);
  if (!pair) {
    return std::nullopt;
  }
  std::optional<Time> earliest;
  for (const RecoatInterval& interval : pair->intervals) {
    if (interval.condition == RecoatCondition::kNever) {
      continue;
    }
    const Time opens = under.since_end(clocks)
                           .opens(under.adapted(interval.opens), rule.deviate, rule.horizon)
                           .value_or(rule.horizon);
    earliest = std::min(earliest.value_or(opens), opens);
  }
  return earliest;
}

/// Takes the entries of a log one after another.
class Tally {
 public:
  Tally(const PieceRequest& piece, const std::vector<WorkItem>& works)
      : piece_(piece), works_(works) {
    const std::size_t faces = piece.faces == Faces::kOne ? 1 : 2;
    progress_.behind.assign(faces, std::vector<bool>(works.size(), false));
    progress_.coats_on.resize(faces);
    progress_.abraded.assign(faces, false);
    unwiped_.assign(faces, false);
    if (piece.over) {
      lay_beneath(*piece.over);
    }
  }

  void take(const LoggedWork& entry) {
    progress_.coats.push_back(0);
    if (entry.left_out) {
      leave_out(entry);
      return;
    }
    progress_.last_at = std::max(progress_.last_at.value_or(entry.at), entry.at);
    switch (entry.kind) {
      case StepKind::kApply:
        take_coat(entry);
        break;
      case StepKind::kSand:
      case StepKind::kAbrade:
        take_sanding(entry);
        break;
      case StepKind::kRaiseGrain:
        take_wetting(entry);
        break;
      case StepKind::kSample:
        tick_first(entry, WorkItem::Kind::kSample);
        break;
      case StepKind::kRubOut:
        take_rub_out(entry);
        break;
      case StepKind::kWipe:
        end_wiping(entry.faces, entry.at);
        open_rags(entry.faces);
        break;
      case StepKind::kRags:
        progress_.rags_open = false;
        break;
      case StepKind::kFlip:
        turn_over();
        break;
      case StepKind::kMix:
        progress_.mixed_at = entry.at;
        break;
      case StepKind::kCleanGun:
        progress_.mixed_at.reset();
        break;
      default:
        break;  // kept in the plan as done; nothing waits for it
    }
  }

  Progress finish(Time now) {
    for (std::size_t face = 0; face < progress_.coats_on.size(); ++face) {
      settle_wiping(static_cast<int>(face), now);
    }
    return std::move(progress_);
  }

 private:
  /// What lay on the piece when it came in.
  void lay_beneath(const ExistingFinish& finish) {
    LaidCoat coat;
    coat.product = finish.product;
    coat.begun = coat.ended = finish.since;
    coat.came_in = true;
    for (auto& on_face : progress_.coats_on) {
      on_face.push_back(coat);
    }
  }

  [[nodiscard]] std::vector<bool>& behind(int face) {
    return progress_.behind[static_cast<std::size_t>(face)];
  }
  /// Null on bare wood.
  [[nodiscard]] LaidCoat* last_coat(int face) {
    auto& coats = progress_.coats_on[static_cast<std::size_t>(face)];
    return coats.empty() ? nullptr : &coats.back();
  }

  /// The first work not yet behind that is meant; nothing when there is none.
  template <class Meant>
  [[nodiscard]] std::optional<std::size_t> first_left(int face, Meant meant) {
    for (std::size_t i = 0; i < works_.size(); ++i) {
      if (!behind(face)[i] && meant(works_[i])) {
        return i;
      }
    }
    return std::nullopt;
  }

  [[nodiscard]] static auto coat_of(const std::string& product) {
    return [&product](const WorkItem& work) {
      return work.kind == WorkItem::Kind::kCoat && work.product->name == product;
    };
  }

  void leave_out(const LoggedWork& entry) {
    for (const int face : entry.faces) {
      const auto work = first_left(face, [&](const WorkItem& one) {
        switch (entry.kind) {
          case StepKind::kApply:
            return coat_of(entry.product_name)(one);
          case StepKind::kSample:
            return one.kind == WorkItem::Kind::kSample;
          case StepKind::kSand:
            return one.kind == WorkItem::Kind::kSand && one.grit == entry.grit;
          case StepKind::kRaiseGrain:
            return one.kind == WorkItem::Kind::kRaiseGrain;
          case StepKind::kRubOut:
            return one.kind == WorkItem::Kind::kRubOut && one.grit == entry.grit;
          default:
            return false;
        }
      });
      if (work) {
        behind(face)[*work] = true;
      }
    }
    if (entry.kind == StepKind::kWipe) {
      end_wiping(entry.faces, entry.at);
    } else if (entry.kind == StepKind::kRags) {
      progress_.rags_overruled = true;
    }
  }

  void take_coat(const LoggedWork& entry) {
    std::vector<std::string> passed_over;
    for (const int face : entry.faces) {
      LaidCoat coat;
      coat.product = entry.product;
      coat.step = static_cast<int>(progress_.coats.size());
      coat.begun = entry.at;
      coat.ended = entry.at;
      const auto work = first_left(face, coat_of(entry.product_name));
      if (work) {
        set_film(coat, *works_[*work].step);
        progress_.coats.back() = works_[*work].coat;
        pass(face, *work, passed_over);
      }
      progress_.coats_on[static_cast<std::size_t>(face)].push_back(coat);
      unwiped_[static_cast<std::size_t>(face)] =
          coat.product->wipe_off && (!work || is_by_hand(works_[*work].step->method));
      progress_.abraded[static_cast<std::size_t>(face)] = false;
      if (!work) {
        warn(
            fmt::format("{} is logged, but the schedule has no more coat of it: the plan goes on "
                        "over it.",
                        entry.product->title));
      }
    }
    if (piece_.faces == Faces::kTwo && entry.faces.size() == 1) {
      progress_.up = entry.faces.front();
    }
    if (entry.product->hazards.rags_self_heat) {
      progress_.rags_open = true;
      progress_.rags_overruled = false;
      progress_.rags_of = entry.product;
    }
    progress_.wetted_at.reset();
    for (const std::string& title : passed_over) {
      warn(fmt::format("No coat of {} is logged, but a later one is: it is taken as left out.",
                       title));
    }
  }

  /// What is laid with a rag or a pad is wiped where its product has a wipe-off window.
  [[nodiscard]] static bool is_by_hand(Method method) {
    return method == Method::kWipe || method == Method::kPad;
  }

  /// Everything up to a work is behind. @param passed_over gets the titles of coats among it.
  void pass(int face, std::size_t last, std::vector<std::string>& passed_over) {
    for (std::size_t i = 0; i <= last; ++i) {
      const bool is_coat = works_[i].kind == WorkItem::Kind::kCoat;
      if (is_coat && i < last && !behind(face)[i]) {
        const std::string& title = works_[i].product->title;
        if (std::find(passed_over.begin(), passed_over.end(), title) == passed_over.end()) {
          passed_over.push_back(title);
        }
      }
      behind(face)[i] = true;
    }
  }

  /// The grain is raised on what was sanded; it is behind when it is cut back.
  void take_wetting(const LoggedWork& entry) {
    for (const int face : entry.faces) {
      const auto work = first_left(
          face, [](const WorkItem& one) { return one.kind == WorkItem::Kind::kRaiseGrain; });
      if (work) {
        progress_.wetted_at = entry.at;
        pass_sanding(face, *work);
      }
    }
  }

  void take_sanding(const LoggedWork& entry) {
    progress_.sanded_until = entry.at;
    const WorkItem::Kind kind =
        progress_.wetted_at ? WorkItem::Kind::kRaiseGrain : WorkItem::Kind::kSand;
    for (const int face : entry.faces) {
      if (last_coat(face)) {
        progress_.abraded[static_cast<std::size_t>(face)] = true;
      }
      const auto work = first_left(
          face, [&](const WorkItem& one) { return one.kind == kind && one.grit == entry.grit; });
      const auto coat = next_coat(face);
      if (entry.kind == StepKind::kAbrade && coat) {
        progress_.coats.back() = works_[*coat].coat;
      }
      // What is sanded after a coat that is still to come is no work of now.
      if (work && (!coat || *work < *coat)) {
        pass_sanding(face, *work);
        behind(face)[*work] = true;
        progress_.wetted_at.reset();
      }
    }
  }

  /// A grit has the coarser ones before it behind it.
  void pass_sanding(int face, std::size_t last) {
    for (std::size_t i = 0; i <= last; ++i) {
      if (works_[i].kind == WorkItem::Kind::kSand) {
        behind(face)[i] = true;
      }
    }
  }

  void tick_first(const LoggedWork& entry, WorkItem::Kind kind) {
    for (const int face : entry.faces) {
      if (const auto work =
              first_left(face, [&](const WorkItem& one) { return one.kind == kind; })) {
        behind(face)[*work] = true;
      }
    }
  }

  /// A grit of rubbing out has the coarser ones behind it; without a grit, all of it.
  void take_rub_out(const LoggedWork& entry) {
    for (const int face : entry.faces) {
      const auto last = first_left(face, [&](const WorkItem& one) {
        return one.kind == WorkItem::Kind::kRubOut && one.grit == entry.grit;
      });
      for (std::size_t i = 0; last && i <= *last; ++i) {
        if (works_[i].kind == WorkItem::Kind::kRubOut) {
          behind(face)[i] = true;
        }
      }
    }
  }

  [[nodiscard]] std::optional<std::size_t> next_coat(int face) {
    return first_left(face, [](const WorkItem& one) { return one.kind == WorkItem::Kind::kCoat; });
  }

  /// Wiping a coat off makes rags anew.
  void open_rags(const std::vector<int>& faces) {
    for (const int face : faces) {
      const LaidCoat* coat = last_coat(face);
      if (coat != nullptr && !coat->came_in && coat->product->hazards.rags_self_heat) {
        progress_.rags_open = true;
        progress_.rags_overruled = false;
        progress_.rags_of = coat->product;
      }
    }
  }

  void end_wiping(const std::vector<int>& faces, Time at) {
    for (const int face : faces) {
      LaidCoat* coat = last_coat(face);
      if (coat != nullptr && !coat->came_in) {
        coat->ended = std::max(coat->begun, at);
        unwiped_[static_cast<std::size_t>(face)] = false;
      }
    }
  }

  void turn_over() {
    if (progress_.up) {
      progress_.up = 1 - *progress_.up;
    }
  }

  /// Wiping that is not logged is still to be done, or its window has closed.
  void settle_wiping(int face, Time now) {
    LaidCoat* coat = last_coat(face);
    if (!unwiped_[static_cast<std::size_t>(face)]) {
      return;
    }
    const WipeOff& wipe = *coat->product->wipe_off;
    const Time closes = coat->begun + seconds_of(wipe.closes);
    if (now < closes) {
      coat->ended = std::max(coat->begun, now);  // and not before it is wiped
      if (!progress_.wipe) {
        progress_.wipe = PendingWipe{{}, coat->begun + seconds_of(wipe.opens), closes};
      }
      progress_.wipe->faces.push_back(face);
      return;
    }
    coat->ended = closes;
    warn(
        fmt::format("No wiping of the {} is logged: it is taken as wiped dry in its window. If "
                    "it was not, it stays tacky: see to it before the next coat.",
                    coat->product->title));
  }

  void warn(std::string text) { add_warning(std::move(text), progress_); }

  const PieceRequest& piece_;
  const std::vector<WorkItem>& works_;
  Progress progress_;
  std::vector<bool> unwiped_;  ///< Per face: its last coat's excess is still on.
};

}  // namespace

std::vector<int> Progress::faces_left(std::size_t work) const {
  std::vector<int> faces;
  for (std::size_t face = 0; face < behind.size(); ++face) {
    if (!behind[face][work]) {
      faces.push_back(static_cast<int>(face));
    }
  }
  return faces;
}

std::vector<std::optional<LaidCoat>> Progress::last_coats() const {
  std::vector<std::optional<LaidCoat>> last;
  for (const std::vector<LaidCoat>& on_face : coats_on) {
    last.push_back(on_face.empty() ? std::nullopt : std::optional(on_face.back()));
  }
  return last;
}

Progress progress_of(const PieceRequest& piece, const std::vector<WorkItem>& works, Time now) {
  Tally tally(piece, works);
  for (const LoggedWork& entry : piece.log) {
    tally.take(entry);
  }
  return tally.finish(now);
}

void hold_back_early_coats(Progress& progress,
                           const RecipeBook& book,
                           DryingClocks& clocks,
                           const WaitRule& rule) {
  for (std::vector<LaidCoat>& coats : progress.coats_on) {
    for (std::size_t i = 1; i < coats.size(); ++i) {
      LaidCoat& coat = coats[i];
      const auto ready = ready_for(coat, coats[i - 1], book, clocks, rule);
      if (!ready || *ready <= coat.ended) {
        continue;
      }
      add_warning(
          fmt::format("{} went on before {} was ready for it: its drying is counted only from {}. "
                      "Test it before every step that follows.",
                      coat.product->title,
                      coats[i - 1].product->title,
                      show_full(*ready, clocks.air().zone())),
          progress);
      coat.ended = *ready;
    }
  }
}

}  // namespace coatwright
