#pragma once

#include <algorithm>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "plan/planner.h"
#include "recipe/recipe_book.h"

/// What a piece's log comes to, reckoned once more without src/plan/progress.cpp, coat by coat and
/// face by face.
namespace own {

using namespace coatwright;

/// A coat as the plan's steps or the log show it.
struct SeenCoat {
  const Product* product = nullptr;
  int number = 0;  ///< In the schedule; 0: it has no such coat.
  std::set<int> faces;
  Time begun;
  Time ended;
  int last_step = 0;
  double film_ratio = 1.0;
  std::optional<double> gate;
  bool abraded_first = false;
  bool logged = false;
  bool to_wipe = false;  ///< Logged, with its excess not logged as wiped off.
  bool came_in = false;  ///< The piece came in with it, long dry.
};

inline std::optional<double> gate_of(const Product& product) {
  const auto& minimum = product.limits.temperature_min;
  return minimum ? std::optional(minimum->value.kelvin()) : std::nullopt;
}

inline double film_ratio(const ScheduleStep& asked, const Product& product) {
  const auto& reference = product.film.reference_wet;
  return asked.wet_film && reference
             ? asked.wet_film->micrometres() / reference->value.micrometres()
             : 1.0;
}

/// The coats that a schedule asks for, in turn, on each face.
inline std::vector<const ScheduleStep*> coats_of(const Schedule& schedule) {
  std::vector<const ScheduleStep*> coats;
  for (const ScheduleStep& step : schedule.steps) {
    if (step.kind == ScheduleStepKind::kCoat) {
      coats.insert(coats.end(), static_cast<std::size_t>(step.coats), &step);
    }
  }
  return coats;
}

struct OwnLog {
  explicit OwnLog(const PieceRequest& piece)
      : scheduled(coats_of(*piece.schedule)),
        behind{none(), none()},
        came_in_bare(!piece.over.has_value()) {
    for (const LoggedWork& entry : piece.log) {
      take(entry, piece);
    }
  }

  /// Coat `number` needs to be put on a face no more.
  [[nodiscard]] bool is_behind(int face, int number) const {
    return behind[static_cast<std::size_t>(face)][static_cast<std::size_t>(number) - 1];
  }
  /// The last logged coat of a face; none on bare wood.
  [[nodiscard]] const SeenCoat* top(int face) const {
    const SeenCoat* last = nullptr;
    for (const SeenCoat& coat : coats) {
      last = coat.faces.contains(face) ? &coat : last;
    }
    return last;
  }

  std::vector<const ScheduleStep*> scheduled;
  std::vector<std::vector<bool>> behind;  ///< Per face, by coat number from 1.
  std::vector<SeenCoat> coats;            ///< One for each face that a coat is on, by time.
  std::vector<int> numbers;               ///< Of each entry's coat; 0 where it is none.
  bool came_in_bare = true;
  bool abraded[2] = {false, false};              ///< Since the last coat.
  std::set<std::pair<int, std::string>> rubbed;  ///< By face and grit; "" is the polish.
  int up = -1;
  const Product* open_rags = nullptr;  ///< Whose rags are not logged as seen to.
  std::optional<Time> last_at;         ///< Of what was done.

 private:
  [[nodiscard]] std::vector<bool> none() const {
    return std::vector<bool>(scheduled.size(), false);
  }

  /// @return number of the first coat of a product that is not behind; 0: the schedule has none.
  [[nodiscard]] int next_of(int face, const std::string& product) const {
    for (int number = 1; number <= static_cast<int>(scheduled.size()); ++number) {
      if (!is_behind(face, number) &&
          scheduled[static_cast<std::size_t>(number) - 1]->product == product) {
        return number;
      }
    }
    return 0;
  }

  void take(const LoggedWork& entry, const PieceRequest& piece) {
    numbers.push_back(0);
    if (!entry.left_out) {
      last_at = std::max(last_at.value_or(entry.at), entry.at);
    }
    for (const int face : entry.faces) {
      take_on(face, entry);
    }
    if (entry.left_out) {
      return;
    }
    if (entry.kind == StepKind::kApply) {
      if (piece.faces == Faces::kTwo && entry.faces.size() == 1) {
        up = entry.faces.front();
      }
      open_rags = entry.product->hazards.rags_self_heat ? entry.product : open_rags;
    } else if (entry.kind == StepKind::kWipe) {
      const SeenCoat* wiped = top(entry.faces.front());
      open_rags =
          wiped != nullptr && wiped->product->hazards.rags_self_heat ? wiped->product : open_rags;
    } else if (entry.kind == StepKind::kRags) {
      open_rags = nullptr;
    } else if (entry.kind == StepKind::kFlip) {
      up = up < 0 ? up : 1 - up;
    }
  }

  void take_on(int face, const LoggedWork& entry) {
    std::vector<bool>& done = behind[static_cast<std::size_t>(face)];
    SeenCoat* last = nullptr;
    for (SeenCoat& coat : coats) {
      last = coat.faces.contains(face) ? &coat : last;
    }
    if (entry.kind == StepKind::kApply && entry.left_out) {
      if (const int number = next_of(face, entry.product_name)) {
        done[static_cast<std::size_t>(number) - 1] = true;
      }
    } else if (entry.kind == StepKind::kApply) {
      lay(face, entry, done);
    } else if (entry.kind == StepKind::kWipe && last != nullptr) {
      last->ended = entry.at;
      last->to_wipe = false;
    } else if (!entry.left_out &&
               (entry.kind == StepKind::kSand || entry.kind == StepKind::kAbrade)) {
      abraded[face] = last != nullptr || !came_in_bare;
    } else if (entry.kind == StepKind::kRubOut) {
      rubbed.emplace(face, entry.grit);
    }
  }

  void lay(int face, const LoggedWork& entry, std::vector<bool>& done) {
    SeenCoat coat;
    coat.logged = true;
    coat.product = entry.product;
    coat.number = next_of(face, entry.product_name);
    coat.faces = {face};
    coat.begun = entry.at;
    coat.ended = entry.at;
    coat.last_step = static_cast<int>(numbers.size());
    coat.gate = gate_of(*entry.product);
    coat.to_wipe = entry.product->wipe_off.has_value();
    if (coat.number > 0) {
      const ScheduleStep& asked = *scheduled[static_cast<std::size_t>(coat.number) - 1];
      coat.film_ratio = film_ratio(asked, *entry.product);
      coat.to_wipe =
          coat.to_wipe && (asked.method == Method::kWipe || asked.method == Method::kPad);
      std::fill(done.begin(), done.begin() + coat.number, true);
      numbers.back() = coat.number;
    }
    abraded[face] = false;
    coats.push_back(coat);
  }
};

}  // namespace own
