#pragma once

#include <set>

#include "cli/finished_parts.h"
#include "plan/plan_changes.h"
#include "plan/work_sequence.h"
#include "report/ticket_sheet.h"

namespace coatwright {

/// Puts steps on a ticket, each coat with what goes along with it: mixing, wiping off, the rags.
class TicketWriter {
 public:
  TicketWriter(const StoredPiece& piece, const RecipeBook& book, JobTicket& ticket)
      : piece_(piece), book_(book), ticket_(ticket) {}

  /// The steps of the plan that was kept. Errors: from the recipes.
  [[nodiscard]] Result<void> add_kept(const KeptPlan& kept);
  /// What is left of the schedule of each part, and the piece's other work. Errors: from the
  /// recipes.
  [[nodiscard]] Result<void> add_scheduled(const std::deque<FinishedPart>& parts, Time now);

 private:
  void add(const PlanStep& step, std::optional<Time> at, const std::string& note = "");
  void add_coat(PlanStep step,
                const Product& product,
                std::optional<Time> at,
                const std::string& note);
  void add_work(const FinishedPart& part, const WorkItem& work);
  void add_build(bool before_finish);
  void add_cautions(const PlanStep& step, const WorkItem& work);
  void put_caution(const std::string& caution);

  const StoredPiece& piece_;
  const RecipeBook& book_;
  JobTicket& ticket_;
  std::set<std::string> said_;  // notes: each once
};

}  // namespace coatwright
