#include "plan/kept_starts.h"

#include <algorithm>

namespace coatwright {
namespace {

/// The part of a session that a plan before is asked for: what the maker's day hangs on.
const SessionPart& main_part(const BenchSession& session) {
  const auto apply =
      std::find_if(session.parts.begin(), session.parts.end(), [](const SessionPart& part) {
        return part.kind == StepKind::kApply;
      });
  return apply == session.parts.end() ? session.parts.front() : *apply;
}

std::string face_name(const PieceRequest& piece, const std::vector<int>& faces) {
  if (piece.faces == Faces::kOne) {
    return "";
  }
  if (faces.size() > 1) {
    return "both";
  }
  return faces.front() == 0 ? "back" : "front";
}

class KeptStarts {
 public:
  KeptStarts(const ShopContext& context, const ShopModel& model, const Plan& before)
      : context_(context), model_(model), before_(before), used_(before.steps.size(), false) {}

  std::vector<std::optional<Tick>> all() {
    std::vector<std::optional<Tick>> kept(model_.roles.size());
    // Work that a piece's file asks for first: sanding is also in schedules, after it.
    for (std::size_t job = 0; job < model_.builds.size(); ++job) {
      for (std::size_t i = model_.builds[job].size(); i-- > 0;) {
        if (model_.builds[job][i] >= 0) {
          kept[static_cast<std::size_t>(model_.builds[job][i])] = start_of_build(job, i);
        }
      }
    }
    for (std::size_t part = 0; part < model_.sessions.size(); ++part) {
      // From the end: of steps that are alike, such as turning over, the first are done.
      for (std::size_t place = model_.sessions[part].size(); place-- > 0;) {
        const auto activity = static_cast<std::size_t>(model_.sessions[part][place].activity);
        const auto start = start_of_session(part, place);
        kept[activity] = start ? std::max(kept[activity].value_or(*start), *start) : kept[activity];
      }
    }
    return kept;
  }

 private:
  template <class Is>
  std::optional<Tick> last_of(Is is, std::chrono::seconds offset) {
    for (std::size_t i = before_.steps.size(); i-- > 0;) {
      if (!used_[i] && !before_.steps[i].done && is(before_.steps[i])) {
        used_[i] = true;
        return model_.ticks.not_before(before_.steps[i].start - offset);
      }
    }
    return std::nullopt;
  }

  std::optional<Tick> start_of_session(std::size_t part, std::size_t place) {
    const ShopPart& asked = context_.shop.parts[part];
    const PartChain& chain = *model_.chains[part];
    const WorkItem& work = chain.works[chain.alone.sessions[place].work];
    const SessionPart& main = main_part(model_.sessions[part][place].session);
    const std::string face = face_name(asked.request.piece, work.faces);
    const int coat = work.product == nullptr ? 0 : work.coat;
    return last_of(
        [&](const PlanStep& step) {
          return step.piece == asked.request.piece.name && step.part == asked.name &&
                 step.kind == main.kind && step.face == face && step.coat == coat &&
                 step.grit == main.grit;
        },
        main.offset);
  }

  std::optional<Tick> start_of_build(std::size_t job, std::size_t build) {
    const JobRequest& asked = context_.request.jobs[job];
    const BuildWork& work = asked.build[build];
    const std::string parts = parts_in_words(asked, work);
    return last_of(
        [&](const PlanStep& step) {
          // A plan that was kept names no work; sanding of a schedule has a grit.
          return step.piece == asked.name && step.part == parts && step.kind == work.kind &&
                 step.attended && step.grit.empty();
        },
        std::chrono::seconds(0));
  }

  const ShopContext& context_;
  const ShopModel& model_;
  const Plan& before_;
  std::vector<bool> used_;
};

}  // namespace

std::optional<FaceOrder> kept_order(const ShopPart& part,
                                    const RecipeBook& book,
                                    DryingClocks& clocks,
                                    const Plan& before) {
  using Coat = std::pair<int, std::string>;
  std::vector<Coat> kept;
  for (const PlanStep& step : before.steps) {
    if (step.piece == part.request.piece.name && step.part == part.name && !step.done &&
        step.kind == StepKind::kApply) {
      const Coat coat{step.coat, step.face};
      if (kept.empty() || kept.back() != coat) {  // one that is put on in sections is one
        kept.push_back(coat);
      }
    }
  }
  for (const FaceOrder order : orders_of(part.request.piece.faces)) {
    const auto chain = chain_of(part, {order, {}}, book, clocks);
    std::vector<Coat> coats;
    for (std::size_t i = 0; chain && i < chain->works.size(); ++i) {
      const WorkItem& work = chain->works[i];
      if (work.kind == WorkItem::Kind::kCoat) {
        coats.emplace_back(work.coat, face_name(part.request.piece, work.faces));
      }
    }
    // Coats that were put on meanwhile stand before those that are left.
    if (!coats.empty() && coats.size() <= kept.size() &&
        std::equal(coats.rbegin(), coats.rend(), kept.rbegin())) {
      return order;
    }
  }
  return std::nullopt;
}

std::vector<std::optional<Tick>> kept_starts(const ShopContext& context,
                                             const ShopModel& model,
                                             const Plan& before) {
  return KeptStarts(context, model, before).all();
}

void hold_to(const std::vector<std::optional<Tick>>& kept,
             const std::vector<bool>& stays,
             Project& project) {
  std::vector<bool> is_fixed(project.activities.size(), false);
  for (std::size_t job = 0; job < project.jobs.size(); ++job) {
    for (const int activity : project.jobs[job].activities) {
      is_fixed[static_cast<std::size_t>(activity)] = stays[job];
    }
  }
  for (std::size_t i = 0; i < project.activities.size() && i < kept.size(); ++i) {
    if (!kept[i]) {
      continue;
    }
    StartSet& set = project.start_sets[static_cast<std::size_t>(project.activities[i].starts)];
    const Tick start = grain_up(*kept[i]);
    std::vector<StartSpan> left;
    for (StartSpan span : set.spans) {
      span.first = std::max(span.first, start);
      if (span.first <= span.last) {
        left.push_back(span);
      }
    }
    if (is_fixed[i] && !left.empty() && left.front().first == start) {
      left = {{start, start}};
    }
    if (!left.empty()) {
      set.spans = std::move(left);
    }
  }
}

void take_out(Tick start, int activity, Project& project) {
  const auto place = static_cast<std::size_t>(activity);
  StartSet& set = project.start_sets[static_cast<std::size_t>(project.activities[place].starts)];
  std::vector<StartSpan> left;
  for (const StartSpan& span : set.spans) {
    if (start < span.first || start > span.last) {
      left.push_back(span);
      continue;
    }
    if (span.first < start) {
      left.push_back({span.first, start - project.grain});
    }
    if (start < span.last) {
      left.push_back({start + project.grain, span.last});
    }
  }
  set.spans = std::move(left);
}

void end_by(Tick latest, int activity, Project& project) {
  const Activity& work = project.activities[static_cast<std::size_t>(activity)];
  StartSet& set = project.start_sets[static_cast<std::size_t>(work.starts)];
  while (!set.spans.empty() && set.spans.back().first + work.length > latest) {
    set.spans.pop_back();
  }
  if (!set.spans.empty()) {
    set.spans.back().last = std::min(set.spans.back().last, grain_down(latest - work.length));
  }
}

StartTimes carried_over(const ShopModel& from, const StartTimes& starts, const ShopModel& to) {
  StartTimes carried;
  carried.starts.assign(to.roles.size(), 0);
  for (std::size_t i = 0; i < to.roles.size(); ++i) {
    const ActivityRole& role = to.roles[i];
    std::optional<int> same;
    if (role.job) {
      same = from.builds[static_cast<std::size_t>(*role.job)][static_cast<std::size_t>(role.build)];
    } else if (!role.sessions.empty()) {
      const SessionKey key = role.sessions.front();
      const auto& sessions = from.sessions[static_cast<std::size_t>(key.part)];
      if (key.place < static_cast<int>(sessions.size())) {
        same = sessions[static_cast<std::size_t>(key.place)].activity;
      }
    }
    if (same && *same >= 0) {
      carried.starts[i] = starts.starts[static_cast<std::size_t>(*same)];
    }
  }
  return carried;
}

}  // namespace coatwright
