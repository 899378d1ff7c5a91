#include "plan/work_sequence.h"

namespace coatwright {
namespace {

/// Lays out coats face by face, turning the piece when another face must come up.
class Sequencer {
 public:
  explicit Sequencer(Faces faces) : faces_(faces) {}

  [[nodiscard]] std::vector<int> all_faces() const {
    return faces_ == Faces::kOne ? std::vector<int>{0} : std::vector<int>{0, 1};
  }

  void add(WorkItem work) { works_.push_back(std::move(work)); }

  void add_coat(WorkItem coat, int face) {
    if (face != up_) {
      WorkItem flip;
      flip.kind = WorkItem::Kind::kFlip;
      flip.faces = {face};
      if (coated_) {
        works_.push_back(flip);
      }
      up_ = face;
    }
    coat.faces = {face};
    works_.push_back(std::move(coat));
    coated_ = true;
  }

  /// @param coats one product's coats in turn.
  void add_coats(const std::vector<WorkItem>& coats, FaceOrder order) {
    if (faces_ != Faces::kTwo) {
      for (WorkItem coat : coats) {
        coat.faces = all_faces();
        works_.push_back(std::move(coat));
      }
      return;
    }
    if (order == FaceOrder::kPerProduct) {
      for (const int face : {0, 1}) {
        for (const WorkItem& coat : coats) {
          add_coat(coat, face);
        }
      }
      return;
    }
    for (const WorkItem& coat : coats) {
      add_coat(coat, 0);
      add_coat(coat, 1);
    }
  }

  [[nodiscard]] std::vector<WorkItem> take() { return std::move(works_); }

 private:
  Faces faces_;
  std::vector<WorkItem> works_;
  int up_ = -1;
  bool coated_ = false;
};

int coats_in(const Schedule& schedule) {
  int count = 0;
  for (const ScheduleStep& step : schedule.steps) {
    count += step.kind == ScheduleStepKind::kCoat ? step.coats : 0;
  }
  return count;
}

}  // namespace

Result<std::vector<WorkItem>> work_sequence(const PieceRequest& piece,
                                            FaceOrder order,
                                            const RecipeBook& book) {
  Sequencer sequencer(piece.faces);
  const int last_coat = coats_in(*piece.schedule);
  int coat_number = 0;
  std::string abrade_grit;
  for (const ScheduleStep& step : piece.schedule->steps) {
    WorkItem work;
    work.step = &step;
    work.faces = sequencer.all_faces();
    switch (step.kind) {
      case ScheduleStepKind::kSample:
        work.kind = WorkItem::Kind::kSample;
        sequencer.add(work);
        break;
      case ScheduleStepKind::kSand:
        for (const std::string& grit : step.grits) {
          work.grit = grit;
          sequencer.add(work);
        }
        break;
      case ScheduleStepKind::kRaiseGrain:
        work.kind = WorkItem::Kind::kRaiseGrain;
        work.grit = step.grits.front();
        sequencer.add(work);
        break;
      case ScheduleStepKind::kAbrade:
        abrade_grit = step.grits.front();
        break;
      case ScheduleStepKind::kCoat: {
        const auto product = book.product(step.product);
        if (!product) {
          return pass_on(product.error(), "schedule " + piece.schedule->name);
        }
        std::vector<WorkItem> coats;
        for (int coat = 1; coat <= step.coats; ++coat) {
          WorkItem one = work;
          one.kind = WorkItem::Kind::kCoat;
          one.product = *product;
          one.coat = ++coat_number;
          one.coat_of_product = coat;
          one.coats_of_product = step.coats;
          one.last_coat = coat_number == last_coat;
          one.abrade_grit = coat == 1 ? abrade_grit : "";
          coats.push_back(one);
        }
        abrade_grit.clear();
        sequencer.add_coats(coats, order);
        break;
      }
    }
  }
  return sequencer.take();
}

}  // namespace coatwright
