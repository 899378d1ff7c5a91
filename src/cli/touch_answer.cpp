#include "cli/touch_answer.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/log_words.h"
#include "report/plan_words.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

/// "By the recipe, in the shop's air, tack-free comes between Sat 12:10 and Sat 14:00."
std::string times_words(const PreparedTouch& touch, const Zone& zone) {
  const std::string stage(name_of(touch.finding.stage));
  if (!touch.times) {
    return fmt::format("The recipe gives no time for {}.", stage);
  }
  const auto& [early, late] = *touch.times;
  const Time at = touch.entry.at;
  const std::string head = fmt::format("By the recipe, in the shop's air, {}", stage);
  if (!early) {
    return head + " does not come within four weeks.";
  }
  if (!late) {
    return fmt::format("{} comes not before {}.", head, moment_text(*early, at, zone));
  }
  if (*early == *late) {
    return fmt::format("{} comes {}.", head, moment_text(*early, at, zone));
  }
  const bool sooner = touch.finding.reached && at < *early;
  const bool later = !touch.finding.reached && at > *late;
  return fmt::format("{} comes between {} and {}.{}",
                     head,
                     moment_text(*early, at, zone),
                     moment_text(*late, at, zone),
                     sooner  ? " This coat was sooner."
                     : later ? " This coat takes longer."
                             : "");
}

/// "entry 4, touch test 'hard', Sat 6 March 2027 12:00".
std::string test_words(std::int64_t id, const PreparedTouch& touch, const Zone& zone) {
  const LogEntry* test = &touch.entry;
  for (const LogEntry& entry : touch.log) {
    test = entry.id == id ? &entry : test;
  }
  return fmt::format("entry {}, {}, {}", id, deed_of(*test), show_full(test->at, zone));
}

std::string contradiction_words(const TouchContradiction& pair,
                                const PreparedTouch& touch,
                                const Zone& zone) {
  return fmt::format(
      "These do not go together: {}, and no sooner {}. Drying does not run backwards. Is one of "
      "the two not what was meant, or were they of different places? Strike out the one that is "
      "wrong with `coatwright strike N --why ...`.",
      test_words(pair.reached, touch, zone),
      test_words(pair.not_reached, touch, zone));
}

nlohmann::ordered_json times_as_json(const std::optional<StageTimes>& times, const Zone& zone) {
  if (!times) {
    return nullptr;
  }
  const auto moment = [&](const std::optional<Time>& time) {
    return time ? nlohmann::ordered_json(show_rfc3339(*time, zone)) : nullptr;
  };
  return {{"early", moment(times->early)}, {"late", moment(times->late)}};
}

}  // namespace

std::string touch_as_text(const PreparedTouch& touch,
                          const std::vector<TouchContradiction>& contradictions,
                          const TaughtByTouch& taught,
                          const Session& session) {
  const LogEntry& entry = touch.entry;
  std::string text = logged_line(entry, session);
  const auto add = [&text](const std::string& words) { text += wrap(words, 2, 4); };
  add(tested_words(touch.beneath, entry.at, session.zone));
  add(air_words(*entry.air, session.units));
  add(fmt::format("{}. {}", touch_words(*entry.touch), touch.finding.means));
  add(fmt::format("To do: {}", touch.finding.to_do));
  add(times_words(touch, session.zone));
  for (const TouchContradiction& pair : contradictions) {
    add(contradiction_words(pair, touch, session.zone));
  }
  if (!taught.left_aside.empty()) {
    add(contradictions.empty() ? taught.left_aside
                               : "Until one is struck out, the tests of this coat teach nothing.");
  } else if (taught.pace) {
    add(fmt::format("This shop now: {}.", factor_words(*taught.pace)));
  }
  return text;
}

std::string touch_as_json(const PreparedTouch& touch,
                          const std::vector<TouchContradiction>& contradictions,
                          const TaughtByTouch& taught,
                          const Session& session) {
  nlohmann::ordered_json pairs = nlohmann::ordered_json::array();
  for (const TouchContradiction& pair : contradictions) {
    pairs.push_back({{"reached", pair.reached}, {"not_reached", pair.not_reached}});
  }
  const CoatBeneath& beneath = touch.beneath;
  return json_page(
      {{"logged", true},
       {"coat",
        {{"number", beneath.coat->id},
         {"product", beneath.coat->product},
         {"ended", show_rfc3339(beneath.ended, session.zone)},
         {"age_seconds", (touch.entry.at - beneath.ended).count()}}},
       {"means", touch.finding.means},
       {"to_do", touch.finding.to_do},
       {"by_recipe", times_as_json(touch.times, session.zone)},
       {"contradictions", pairs},
       {"this_shop",
        taught.pace ? shop_pace_as_json({*taught.pace}).front() : nlohmann::ordered_json(nullptr)},
       {"entry", entry_as_json(touch.entry, session)}});
}

}  // namespace coatwright
