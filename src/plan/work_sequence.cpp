#include "plan/work_sequence.h"

#include <algorithm>
#include <utility>

#include "plan/progress.h"

namespace coatwright {
namespace {

/// Lays out coats face by face, turning the piece when another face must come up.
class Sequencer {
 public:
  /// @param first where nothing lies yet, the face that FaceOrder::kUpFirst begins with.
  Sequencer(Faces faces, std::optional<int> up, int first)
      : faces_(faces), up_(up), first_(first) {}

  void add(WorkItem work) { works_.push_back(std::move(work)); }

  /// @param coats one product's coats in turn, each with the faces that it is still to go on.
  void add_coats(const std::vector<WorkItem>& coats, FaceOrder order) {
    if (faces_ != Faces::kTwo) {
      works_.insert(works_.end(), coats.begin(), coats.end());
    } else if (order == FaceOrder::kPerProduct) {
      for (const int face : {0, 1}) {
        for (const WorkItem& coat : coats) {
          add_coat(coat, face);
        }
      }
    } else {
      for (const WorkItem& coat : coats) {
        const int face = order == FaceOrder::kUpFirst ? up_.value_or(first_) : 0;
        add_coat(coat, face);
        add_coat(coat, 1 - face);
      }
    }
  }

  [[nodiscard]] std::vector<WorkItem> take() { return std::move(works_); }

 private:
  void add_coat(WorkItem coat, int face) {
    if (std::find(coat.faces.begin(), coat.faces.end(), face) == coat.faces.end()) {
      return;
    }
    if (up_ && *up_ != face) {
      WorkItem flip;
      flip.kind = WorkItem::Kind::kFlip;
      flip.faces = {face};
      works_.push_back(std::move(flip));
    }
    up_ = face;
    coat.faces = {face};
    works_.push_back(std::move(coat));
  }

  Faces faces_;
  std::optional<int> up_;  ///< None: nothing is coated yet, and it may lie as one likes.
  int first_;
  std::vector<WorkItem> works_;
};

/// Begun with it, the coats that are left end on the front when each begins on the face that is up.
int first_face(const std::vector<WorkItem>& works) {
  const auto coats = std::count_if(works.begin(), works.end(), [](const WorkItem& work) {
    return work.kind == WorkItem::Kind::kCoat;
  });
  return coats % 2 == 0 ? 1 : 0;
}

int coats_in(const Schedule& schedule) {
  int count = 0;
  for (const ScheduleStep& step : schedule.steps) {
    count += step.kind == ScheduleStepKind::kCoat ? step.coats : 0;
  }
  return count;
}

/// Writes down a schedule's steps as works.
class WorkList {
 public:
  WorkList(const Schedule& schedule, const RecipeBook& book) : schedule_(schedule), book_(book) {}

  Result<std::vector<WorkItem>> all() {
    for (const ScheduleStep& step : schedule_.steps) {
      if (const auto added = add(step); !added) {
        return pass_on(added.error(), "schedule " + schedule_.name);
      }
    }
    return std::move(works_);
  }

 private:
  Result<void> add(const ScheduleStep& step) {
    const bool sands_once =
        step.kind == ScheduleStepKind::kRaiseGrain || step.kind == ScheduleStepKind::kAbrade;
    if (sands_once && step.grits.empty()) {
      return fail(ErrorCode::kFault, "a grit is missing: the schedule was not made for its wood");
    }
    WorkItem work;
    work.step = &step;
    switch (step.kind) {
      case ScheduleStepKind::kSample:
        work.kind = WorkItem::Kind::kSample;
        works_.push_back(std::move(work));
        break;
      case ScheduleStepKind::kSand:
        for (const std::string& grit : step.grits) {
          work.grit = grit;
          works_.push_back(work);
        }
        break;
      case ScheduleStepKind::kRaiseGrain:
        work.kind = WorkItem::Kind::kRaiseGrain;
        work.grit = step.grits.front();
        works_.push_back(std::move(work));
        break;
      case ScheduleStepKind::kAbrade:
        abrade_grit_ = step.grits.front();
        abrade_note_ = step.note;
        break;
      case ScheduleStepKind::kWash:
        wash_ = &step;
        break;
      case ScheduleStepKind::kRubOut:
        add_rub_out(std::move(work));
        break;
      case ScheduleStepKind::kCoat:
        return add_coats(std::move(work));
    }
    return {};
  }

  /// Each grit in turn, and the polish that ends it.
  void add_rub_out(WorkItem work) {
    work.kind = WorkItem::Kind::kRubOut;
    work.levels = true;
    for (const std::string& grit : work.step->grits) {
      work.grit = grit;
      works_.push_back(work);
      work.levels = false;
    }
    work.grit.clear();
    works_.push_back(std::move(work));
  }

  Result<void> add_coats(WorkItem coat) {
    const auto product = book_.product(coat.step->product);
    if (!product) {
      return pass_on(product.error());
    }
    coat.kind = WorkItem::Kind::kCoat;
    coat.product = *product;
    coat.coats_of_product = coat.step->coats;
    coat.abrade_grit = std::exchange(abrade_grit_, {});
    coat.abrade_note = std::exchange(abrade_note_, {});
    coat.wash = std::exchange(wash_, nullptr);
    for (int i = 1; i <= coat.step->coats; ++i) {
      coat.coat = ++coat_number_;
      coat.coat_of_product = i;
      coat.last_coat = coat_number_ == last_coat_;
      works_.push_back(coat);
      coat.abrade_grit.clear();
      coat.abrade_note.clear();
      coat.wash = nullptr;
    }
    return {};
  }

  const Schedule& schedule_;
  const RecipeBook& book_;
  int last_coat_ = coats_in(schedule_);
  int coat_number_ = 0;
  std::string abrade_grit_;             ///< For the next coat.
  std::string abrade_note_;             ///< The same.
  const ScheduleStep* wash_ = nullptr;  ///< Before the next coat.
  std::vector<WorkItem> works_;
};

}  // namespace

std::vector<FaceOrder> orders_of(Faces faces) {
  if (faces == Faces::kTwo) {
    return {FaceOrder::kPerCoat, FaceOrder::kPerProduct, FaceOrder::kUpFirst};
  }
  return {FaceOrder::kPerCoat};
}

Result<std::vector<WorkItem>> scheduled_works(const Schedule& schedule, const RecipeBook& book) {
  return WorkList(schedule, book).all();
}

std::vector<WorkItem> work_sequence(const PieceRequest& piece,
                                    FaceOrder order,
                                    const std::vector<WorkItem>& works,
                                    const Progress& progress) {
  Sequencer sequencer(piece.faces, progress.up, first_face(works));
  for (std::size_t i = 0; i < works.size(); ++i) {
    std::vector<WorkItem> together;  // the coats of one step of the schedule
    for (; i < works.size(); ++i) {
      WorkItem work = works[i];
      work.faces = progress.faces_left(i);
      if (!work.faces.empty()) {
        together.push_back(std::move(work));
      }
      const bool more = works[i].kind == WorkItem::Kind::kCoat && i + 1 < works.size() &&
                        works[i + 1].step == works[i].step;
      if (!more) {
        break;
      }
    }
    if (together.empty()) {
      continue;
    }
    if (together.front().kind == WorkItem::Kind::kCoat) {
      sequencer.add_coats(together, order);
    } else {
      sequencer.add(std::move(together.front()));
    }
  }
  return sequencer.take();
}

}  // namespace coatwright
