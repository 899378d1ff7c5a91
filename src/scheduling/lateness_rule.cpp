#include "scheduling/lateness_rule.h"

#include <algorithm>

namespace coatwright {

LatenessRule::LatenessRule(const Project& project, const StartVariables& starts)
    : starts_(starts), looked_at_(project.activities.size(), false) {
  for (const Job& job : project.jobs) {
    add(project, job, job.due);
  }
}

LatenessRule::LatenessRule(const Project& project, const StartVariables& starts, Tick due)
    : starts_(starts), looked_at_(project.activities.size(), false) {
  for (const Job& job : project.jobs) {
    add(project, job, due);
  }
}

void LatenessRule::add(const Project& project, const Job& job, Tick due) {
  if (due >= kNeverTick || job.weight <= 0 || job.activities.empty()) {
    return;
  }
  DueJob added{{}, due, job.weight};
  for (const int activity : job.activities) {
    const auto place = static_cast<std::size_t>(activity);
    added.works.push_back({activity, project.activities[place].length});
    looked_at_[place] = true;
  }
  jobs_.push_back(std::move(added));
}

bool LatenessRule::looks_at(int activity) const {
  return looked_at_[static_cast<std::size_t>(activity)];
}

LatenessRule::Latest LatenessRule::latest_of(const DueJob& job) const {
  Latest latest{std::nullopt, job.known};
  for (const Work& work : job.works) {
    const Tick late = starts_.low(work.activity) + work.length - job.due;
    if (late > latest.late) {
      latest = {work, late};
    }
  }
  return latest;
}

void LatenessRule::fold_fixed(const BoundTrail& trail) {
  for (DueJob& job : jobs_) {
    std::erase_if(job.works, [&](const Work& work) {
      const bool is_fixed = trail.is_fixed(work.activity);
      if (is_fixed) {
        job.known = std::max(job.known, starts_.low(work.activity) + work.length - job.due);
      }
      return is_fixed;
    });
    if (job.works.empty()) {
      known_ += job.weight * job.known;
    }
  }
  std::erase_if(jobs_, [](const DueJob& job) { return job.works.empty(); });
}

bool LatenessRule::propagate(Inference& inference) {
  if (limit_ == std::numeric_limits<std::int64_t>::max()) {
    return true;
  }
  latest_.clear();
  std::int64_t sum = known_;
  for (const DueJob& job : jobs_) {
    latest_.push_back(latest_of(job));
    sum += job.weight * latest_.back().late;
  }
  const auto explain = [&](std::size_t except) {
    because_.clear();
    for (std::size_t i = 0; i < jobs_.size(); ++i) {
      if (i != except && latest_[i].late > 0 && latest_[i].work) {
        const Work& work = *latest_[i].work;
        const Tick earliest = jobs_[i].due + latest_[i].late - work.length;
        because_.push_back(starts_.not_before(work.activity, earliest));
      }
    }
  };
  if (sum > limit_) {
    explain(jobs_.size());
    return inference.contradict(because_);
  }
  for (std::size_t i = 0; i < jobs_.size(); ++i) {
    const DueJob& job = jobs_[i];
    const std::int64_t spare = limit_ - (sum - job.weight * latest_[i].late);
    const std::int64_t most_late = spare / job.weight;
    if (most_late >= kNeverTick) {
      continue;
    }
    const Tick latest_end = job.due + static_cast<Tick>(most_late);
    bool explained = false;
    for (const Work& work : job.works) {
      if (starts_.high(work.activity) + work.length <= latest_end) {
        continue;
      }
      const BoundLiteral bound = starts_.not_after(work.activity, latest_end - work.length);
      if (!explained) {
        explain(i);
        explained = true;
      }
      if (!inference.infer(bound, because_)) {
        return false;
      }
    }
  }
  return true;
}

}  // namespace coatwright
