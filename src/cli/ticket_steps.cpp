#include "cli/ticket_steps.h"

#include <algorithm>

#include <fmt/format.h>

#include "plan/progress.h"
#include "plan/step_texts.h"
#include "report/plan_words.h"

namespace coatwright {
namespace {

/// The name of faces as plans have it; none where the piece has one.
std::string face_name(const PieceRequest& piece, const std::vector<int>& faces) {
  if (piece.faces == Faces::kOne || faces.empty()) {
    return "";
  }
  return faces.size() > 1 ? "both" : faces.front() == 0 ? "back" : "front";
}

std::string mix_note(const Product& product) {
  std::string ratio;
  for (const Mix::Part& part : product.mix->parts) {
    ratio += fmt::format("{}{:g} {}", ratio.empty() ? "" : " to ", part.parts, part.name);
  }
  return ratio + (product.mix->by_mass ? " by weight" : " by volume") +
         ", unless the label says otherwise";
}

StepKind kind_of(WorkItem::Kind kind) {
  switch (kind) {
    case WorkItem::Kind::kSample:
      return StepKind::kSample;
    case WorkItem::Kind::kSand:
      return StepKind::kSand;
    case WorkItem::Kind::kRaiseGrain:
      return StepKind::kRaiseGrain;
    case WorkItem::Kind::kCoat:
      return StepKind::kApply;
    case WorkItem::Kind::kFlip:
      return StepKind::kFlip;
    case WorkItem::Kind::kRubOut:
      return StepKind::kRubOut;
  }
  return StepKind::kSand;
}

/// How a product is put on by the piece's schedules; none where they do not have it any more.
std::string method_of(const std::string& product, const std::vector<const Schedule*>& schedules) {
  for (const Schedule* schedule : schedules) {
    for (const ScheduleStep& step : schedule->steps) {
      if (step.kind == ScheduleStepKind::kCoat && step.product == product) {
        return std::string(name_of(step.method));
      }
    }
  }
  return "";
}

/// Words for a step without a part's name before it: the ticket is of one piece.
std::string words_of(PlanStep step) {
  step.grit.clear();  // has a column of its own
  return sentence_of(Plan(), step);
}

}  // namespace

void TicketWriter::put_caution(const std::string& caution) {
  auto& cautions = ticket_.cautions;
  if (std::find(cautions.begin(), cautions.end(), caution) == cautions.end()) {
    cautions.push_back(caution);
  }
}

void TicketWriter::add_cautions(const PlanStep& step, const WorkItem& work) {
  SessionPart part;
  part.kind = step.kind;
  for (const std::string& caution : texts_of(part, work, nullptr, nullptr).cautions) {
    put_caution(caution);
  }
}

void TicketWriter::add(const PlanStep& step, std::optional<Time> at, const std::string& note) {
  if (step.kind != StepKind::kApply && step.kind != StepKind::kCleanGun) {
    add_cautions(step, WorkItem());
  }
  const bool is_new = said_.insert(note).second;
  ticket_.steps.push_back(
      {words_of(step), at, step.product_title, step.grit, is_new ? note : std::string()});
}

void TicketWriter::add_coat(PlanStep step,
                            const Product& product,
                            std::optional<Time> at,
                            const std::string& note) {
  step.product = product.name;
  step.product_title = product.title;
  WorkItem work;
  work.product = &product;
  const auto along = [&](StepKind kind, std::optional<Time> when, const std::string& more) {
    PlanStep other = step;
    other.kind = kind;
    other.grit.clear();
    add(other, when, more);
  };
  if (product.mix) {
    along(StepKind::kMix, at, mix_note(product));
  }
  add(step, at, note);
  add_cautions(step, work);
  if (product.wipe_off) {
    along(StepKind::kWipe, std::nullopt, "");
  }
  if (product.hazards.rags_self_heat) {
    along(StepKind::kRags, std::nullopt, "");
  }
}

Result<void> TicketWriter::add_kept(const KeptPlan& kept) {
  const auto schedules = schedules_of(piece_, book_);
  if (!schedules) {
    return pass_on(schedules.error());
  }
  std::vector<const KeptStep*> steps;
  for (const KeptStep& step : kept.steps) {
    steps.push_back(&step);
  }
  std::stable_sort(steps.begin(), steps.end(), [](const KeptStep* a, const KeptStep* b) {
    return a->start < b->start;
  });
  for (const KeptStep* one : steps) {
    PlanStep step;
    step.part = one->part;
    step.kind = one->kind;
    step.face = one->face;
    step.product_title = one->product_title;
    step.coat = one->coat;
    step.grit = one->grit;
    if (one->kind != StepKind::kApply) {
      add(step, one->start);
      continue;
    }
    const auto product = book_.product(one->product);
    if (!product) {
      return pass_on(product.error());
    }
    step.method = method_of(one->product, *schedules);
    add_coat(std::move(step), **product, one->start, "");
  }
  return {};
}

void TicketWriter::add_work(const FinishedPart& part, const WorkItem& work) {
  PlanStep step;
  step.part = part.name;
  step.kind = kind_of(work.kind);
  step.face = face_name(part.request, work.faces);
  step.grit = work.grit;
  step.coat = work.coat;
  const std::string note = work.step == nullptr ? "" : work.step->note;
  if (work.product == nullptr) {
    add(step, std::nullopt, note);
    return;
  }
  if (work.wash != nullptr) {
    PlanStep wash = step;
    wash.kind = StepKind::kWash;
    wash.coat = 0;
    add(wash, std::nullopt, work.wash->note);
  }
  if (!work.abrade_grit.empty()) {
    PlanStep abrade = step;
    abrade.kind = StepKind::kAbrade;
    abrade.grit = work.abrade_grit;
    add(abrade, std::nullopt, work.abrade_note);
  }
  step.method = work.step == nullptr ? "" : std::string(name_of(work.step->method));
  add_coat(std::move(step), *work.product, std::nullopt, note);
}

void TicketWriter::add_build(bool before_finish) {
  for (const StoredWork& work : piece_.work) {
    if (work.before_finish == before_finish) {
      ticket_.steps.push_back({work.name, std::nullopt, work.glue, "", ""});
    }
  }
}

Result<void> TicketWriter::add_scheduled(const std::deque<FinishedPart>& parts, Time now) {
  add_build(true);
  for (const FinishedPart& part : parts) {
    const auto works = scheduled_works(*part.request.schedule, book_);
    if (!works) {
      return pass_on(works.error());
    }
    const Progress progress = progress_of(part.request, *works, now);
    const FaceOrder order = orders_of(part.request.faces).front();
    for (const WorkItem& work : work_sequence(part.request, order, *works, progress)) {
      add_work(part, work);
    }
  }
  add_build(false);
  return {};
}

}  // namespace coatwright
