#include "cli/schedule_filter.h"

#include <algorithm>
#include <set>

#include "recipe/adaptation.h"
#include "recipe/nearest_names.h"

namespace coatwright {
namespace {

using Words = std::vector<std::string>;

/// One word of the filter, and where schedules say it.
struct Wanted {
  std::string_view what;  ///< As a message names it.
  const std::string& word;
  Words (*words_of)(const Schedule&);
};

/// Every skill that is enough for a schedule.
Words enough_skill(const Schedule& schedule) {
  Words words;
  for (const Skill skill : {Skill::kBeginner, Skill::kPractised, Skill::kExpert}) {
    if (skill >= schedule.skill) {
      words.emplace_back(name_of(skill));
    }
  }
  return words;
}

std::vector<Wanted> wanted_by(const ScheduleFilter& filter) {
  return {{"use", filter.suits, [](const Schedule& one) { return one.suits; }},
          {"look", filter.look, [](const Schedule& one) { return Words{one.look}; }},
          {"sheen",
           filter.sheen,
           [](const Schedule& one) { return Words{std::string(name_of(one.sheen))}; }},
          {"tool", filter.tool, [](const Schedule& one) { return one.tools; }},
          {"skill", filter.skill, enough_skill}};
}

bool says(const Schedule& schedule, const Wanted& wanted) {
  const Words words = wanted.words_of(schedule);
  return std::find(words.begin(), words.end(), wanted.word) != words.end();
}

FilteredSchedules all_schedules(const RecipeBook& book) {
  FilteredSchedules all;
  for (const std::string& name : book.schedule_names()) {
    const auto schedule = book.schedule(name);
    if (schedule) {
      all.schedules.push_back(*schedule);
    } else {
      all.bad.push_back(schedule.error());
    }
  }
  return all;
}

/// Leaves those that say a word. Errors: kNotFound where none of all schedules says it.
Result<void> keep(std::vector<const Schedule*>& kept,
                  const std::vector<const Schedule*>& all,
                  const Wanted& wanted) {
  std::set<std::string> known;
  for (const Schedule* schedule : all) {
    const Words words = wanted.words_of(*schedule);
    known.insert(words.begin(), words.end());
  }
  if (!known.contains(wanted.word)) {
    return fail(ErrorCode::kNotFound,
                no_such_name(wanted.what, wanted.word, Words(known.begin(), known.end())));
  }
  std::erase_if(kept, [&wanted](const Schedule* one) { return !says(*one, wanted); });
  return {};
}

Result<void> keep_those_for(const std::string& wood,
                            std::vector<const Schedule*>& kept,
                            const RecipeBook& book) {
  const auto species = book.species(wood);
  if (!species) {
    return pass_on(species.error());
  }
  std::vector<const Schedule*> fit;
  for (const Schedule* schedule : kept) {
    const auto concrete = adapted(*schedule, **species, WoodSurface{}, book);
    if (concrete) {
      fit.push_back(schedule);
    } else if (concrete.error().code != ErrorCode::kOutOfRange) {
      return pass_on(concrete.error());
    }
  }
  kept = std::move(fit);
  return {};
}

}  // namespace

Result<FilteredSchedules> filtered_schedules(const ScheduleFilter& filter, const RecipeBook& book) {
  const FilteredSchedules all = all_schedules(book);
  FilteredSchedules kept = all;
  for (const Wanted& wanted : wanted_by(filter)) {
    if (wanted.word.empty()) {
      continue;
    }
    if (const auto done = keep(kept.schedules, all.schedules, wanted); !done) {
      return pass_on(done.error());
    }
  }
  if (!filter.species.empty()) {
    if (const auto done = keep_those_for(filter.species, kept.schedules, book); !done) {
      return pass_on(done.error());
    }
  }
  return kept;
}

}  // namespace coatwright
