#include "plan/interruptions.h"

#include <set>

#include "scheduling/work_breaks.h"

namespace coatwright {

int gun_cleanings(const ShopModel& model) {
  std::set<int> cleaned;
  for (const auto& sessions : model.sessions) {
    for (const ModelSession& session : sessions) {
      for (const SessionPart& part : session.session.parts) {
        if (part.kind == StepKind::kCleanGun) {
          cleaned.insert(session.activity);
        }
      }
    }
  }
  return static_cast<int>(cleaned.size());
}

int breaks_in_work(const ShopModel& model, const StartTimes& schedule) {
  return WorkBreaks(model.project, model.resources.people).count(schedule.starts);
}

}  // namespace coatwright
