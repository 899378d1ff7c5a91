#include "recipe/schedule_check.h"

#include <algorithm>
#include <limits>
#include <utility>

#include <fmt/format.h>

namespace coatwright {
namespace {

/// The products of a schedule's coats with their steps.
struct CoatStep {
  int step = 0;
  const Product* product = nullptr;
  bool several = false;
};

Result<std::vector<CoatStep>> coat_steps(const Schedule& schedule, const RecipeBook& book) {
  std::vector<CoatStep> coats;
  int number = 0;
  for (const ScheduleStep& step : schedule.steps) {
    ++number;
    if (step.kind != ScheduleStepKind::kCoat) {
      continue;
    }
    const auto product = book.product(step.product);
    if (!product) {
      return pass_on(product.error(), fmt::format("step {}", number));
    }
    coats.push_back({number, *product, step.coats > 1});
  }
  return coats;
}

Result<PairFinding> finding_of(const Product& under, const CoatStep& coat, const RecipeBook& book) {
  auto rule = book.pair(under, *coat.product);
  if (!rule) {
    return pass_on(rule.error(), fmt::format("step {}", coat.step));
  }
  return PairFinding{coat.step, &under, coat.product, std::move(*rule)};
}

/// What it costs to put one coat in another's place.
double replacing(const Product& one, const Product& other) {
  constexpr double kSameLayer = 0.25;
  constexpr double kSameKind = 0.5;
  if (one.name == other.name) {
    return 0.0;
  }
  if (one.layer == other.layer) {
    return kSameLayer;
  }
  return one.kind == other.kind ? kSameKind : 1.0;
}

double changes_between(const std::vector<CoatStep>& one, const std::vector<CoatStep>& other) {
  std::vector<double> row(other.size() + 1);
  for (std::size_t j = 0; j <= other.size(); ++j) {
    row[j] = static_cast<double>(j);
  }
  for (std::size_t i = 1; i <= one.size(); ++i) {
    double diagonal = row[0];
    row[0] = static_cast<double>(i);
    for (std::size_t j = 1; j <= other.size(); ++j) {
      const double replaced = diagonal + replacing(*one[i - 1].product, *other[j - 1].product);
      diagonal = row[j];
      row[j] = std::min({row[j] + 1.0, row[j - 1] + 1.0, replaced});
    }
  }
  return row.back();
}

bool is_refused(const std::string& name, const PieceSurface& surface, const RecipeBook& book) {
  const auto schedule = book.schedule_for(name, surface);
  if (!schedule) {
    return true;
  }
  const auto findings = check_pairs(**schedule, surface.over, book);
  return !findings || first_refusal(*findings) != nullptr;
}

}  // namespace

bool PairFinding::refuses() const {
  return rule.verdict == PairVerdict::kNever || rule.verdict == PairVerdict::kBarrierFirst;
}

std::string refusal_of(const PairFinding& finding) {
  std::string text = fmt::format(
      "{} must not go over {}: {}", finding.over->title, finding.under->title, finding.rule.reason);
  for (std::size_t i = 0; i < finding.rule.barriers.size(); ++i) {
    text +=
        (i == 0 ? "; it would go with one of these between: " : ", ") + finding.rule.barriers[i];
  }
  return text;
}

Result<std::vector<PairFinding>> check_pairs(const Schedule& schedule,
                                             const Product* base,
                                             const RecipeBook& book) {
  const auto coats = coat_steps(schedule, book);
  if (!coats) {
    return pass_on(coats.error());
  }
  std::vector<PairFinding> findings;
  const Product* under = base;
  for (const CoatStep& coat : *coats) {
    const bool again = coat.several && under != coat.product;
    for (const Product* beneath : {under, again ? coat.product : nullptr}) {
      if (beneath == nullptr) {
        continue;
      }
      auto finding = finding_of(*beneath, coat, book);
      if (!finding) {
        return pass_on(finding.error());
      }
      findings.push_back(std::move(*finding));
    }
    under = coat.product;
  }
  return findings;
}

const PairFinding* first_refusal(const std::vector<PairFinding>& findings) {
  const auto found = std::find_if(
      findings.begin(), findings.end(), [](const PairFinding& one) { return one.refuses(); });
  return found == findings.end() ? nullptr : &*found;
}

std::vector<GritFinding> check_grits(const Schedule& schedule) {
  std::vector<GritFinding> findings;
  int number = 0;
  for (const ScheduleStep& step : schedule.steps) {
    ++number;
    if (step.kind != ScheduleStepKind::kSand) {
      continue;
    }
    std::vector<GritRemark> remarks = grit_remarks(step.grits);
    for (GritRemark& remark : remarks) {
      findings.push_back({number, std::move(remark)});
    }
  }
  return findings;
}

double unlikeness(const Schedule& one, const Schedule& other, const RecipeBook& book) {
  constexpr double kOtherLook = 0.5;
  const auto coats = coat_steps(one, book);
  const auto other_coats = coat_steps(other, book);
  if (!coats || !other_coats) {
    return std::numeric_limits<double>::infinity();
  }
  return changes_between(*coats, *other_coats) + (one.look == other.look ? 0.0 : kOtherLook);
}

std::string nearest_working_schedule(const Schedule& schedule,
                                     const PieceSurface& surface,
                                     const RecipeBook& book) {
  std::string nearest;
  double least = std::numeric_limits<double>::infinity();
  for (const std::string& name : book.schedule_names()) {
    const auto other = book.schedule(name);
    if (!other || name == schedule.name || is_refused(name, surface, book)) {
      continue;
    }
    if (const double distance = unlikeness(schedule, **other, book); distance < least) {
      least = distance;
      nearest = name;
    }
  }
  return nearest;
}

}  // namespace coatwright
