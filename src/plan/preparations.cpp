#include "plan/preparations.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace coatwright {
namespace {

using std::chrono::seconds;

seconds seconds_of(Hours hours) {
  return seconds(std::llround(hours.hours() * 3600.0));
}

/// The latest start, while somebody is there, of work that ends by a moment; the moment less the
/// work itself where nobody is there before it.
Time latest_start(const std::vector<Interval>& hours, seconds work, Time by) {
  for (auto opening = hours.rbegin(); opening != hours.rend(); ++opening) {
    const Time start = std::min(by, opening->end) - work;
    if (start >= opening->start) {
      return start;
    }
  }
  return by - work;
}

/// The same order for several products is printed once.
void add(PlanPreparation preparation, std::vector<PlanPreparation>& all) {
  const auto same = std::find_if(all.begin(), all.end(), [&](const PlanPreparation& one) {
    return one.when == preparation.when && one.text == preparation.text;
  });
  if (same == all.end()) {
    all.push_back(std::move(preparation));
    return;
  }
  same->products.push_back(preparation.products.front());
  same->product_titles.push_back(preparation.product_titles.front());
  same->begin_by = std::min(same->begin_by, preparation.begin_by);
}

}  // namespace

Result<std::vector<PlanPreparation>> preparations_of(const Plan& plan, const RecipeBook& book) {
  std::vector<PlanPreparation> all;
  std::set<std::string> seen;
  for (const PlanStep& step : plan.steps) {
    // What was put on before the plan is at hand already.
    if (step.kind != StepKind::kApply || !seen.insert(step.product).second || step.done) {
      continue;
    }
    const auto product = book.product(step.product);
    if (!product) {
      return pass_on(product.error());
    }
    for (const Preparation& needed : (*product)->preparations) {
      const seconds work(std::llround(needed.minutes * 60.0));
      add({needed.when,
           {(*product)->name},
           {(*product)->title},
           needed.text,
           latest_start(plan.hours, work, step.start - seconds_of(needed.lead.high())),
           needed.lead.low(),
           needed.lead.high(),
           needed.source},
          all);
    }
  }
  std::stable_sort(
      all.begin(), all.end(), [](const auto& a, const auto& b) { return a.begin_by < b.begin_by; });
  return all;
}

}  // namespace coatwright
