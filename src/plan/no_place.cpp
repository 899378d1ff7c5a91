#include "plan/no_place.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/zone.h"
#include "plan/air_limits.h"

namespace coatwright {
namespace {

using std::chrono::seconds;

class Bars {
 public:
  Bars(const ShopContext& context, const ShopModel& model, const NoPlace& none)
      : context_(context),
        none_(none),
        model_(model),
        activity_(model.project.activities[static_cast<std::size_t>(none.activity)]),
        role_(model.roles[static_cast<std::size_t>(none.activity)]),
        openings_(openings_of(context.request.hours)) {}

  [[nodiscard]] std::string text() {
    return fmt::format("{} finds no place: {}", name(), reason());
  }

 private:
  [[nodiscard]] const BuildWork* build() const {
    return role_.job ? &context_.request.jobs[static_cast<std::size_t>(*role_.job)]
                            .build[static_cast<std::size_t>(role_.build)]
                     : nullptr;
  }

  /// "hall bench: 'glue the seat up'", "hall bench, seat: coat 2 (dewaxed shellac)".
  [[nodiscard]] std::string name() const {
    if (const BuildWork* work = build()) {
      const JobRequest& job = context_.request.jobs[static_cast<std::size_t>(*role_.job)];
      return fmt::format("{}: '{}'", job.name, work->name);
    }
    if (role_.sessions.empty()) {
      return activity_.name;
    }
    const SessionKey& key = role_.sessions.front();
    const ShopPart& part = context_.shop.parts[static_cast<std::size_t>(key.part)];
    const std::string whole = part.name == "all" ? "" : ", " + part.name;
    return fmt::format("{}{}: {}", part.request.piece.name, whole, words_of(work_of(key)));
  }

  [[nodiscard]] static std::string words_of(const WorkItem& work) {
    switch (work.kind) {
      case WorkItem::Kind::kSample:
        return "the sample board";
      case WorkItem::Kind::kSand:
        return work.grit.empty() ? "sanding" : "sanding with " + work.grit;
      case WorkItem::Kind::kRaiseGrain:
        return "raising the grain";
      case WorkItem::Kind::kFlip:
        return "turning it over";
      case WorkItem::Kind::kRubOut:
        return "rubbing it out";
      case WorkItem::Kind::kCoat:
        break;
    }
    return fmt::format("coat {} ({})", work.coat, work.product->title);
  }

  [[nodiscard]] const WorkItem& work_of(const SessionKey& key) const {
    const PartChain& chain = *model_.chains[static_cast<std::size_t>(key.part)];
    return chain.works[chain.alone.sessions[static_cast<std::size_t>(key.place)].work];
  }

  [[nodiscard]] std::string reason() {
    if (std::string people = too_few_people(); !people.empty()) {
      return people;
    }
    if (model_.project.start_sets[static_cast<std::size_t>(activity_.starts)].spans.empty()) {
      return own_bar();
    }
    if (none_.resource) {
      return "too few " + model_.project.resources[static_cast<std::size_t>(*none_.resource)].name;
    }
    return none_.missed_from ? "its window over the coat beneath closes before it can be begun"
                             : "what comes before it leaves none of the hours in which it may be "
                               "done";
  }

  [[nodiscard]] std::string too_few_people() const {
    int needed = 0;
    for (const Demand& demand : activity_.demands) {
      needed =
          demand.resource == model_.resources.people ? std::max(needed, demand.amount) : needed;
    }
    int there = 0;
    for (const StaffedHours& hours : context_.request.hours) {
      there = std::max(there, hours.people);
    }
    return needed <= there
               ? ""
               : fmt::format("it needs {} people, and never are more than {} there", needed, there);
  }

  /// What takes away its last start: the length of the openings, or the air.
  [[nodiscard]] std::string own_bar() {
    const auto first = first_in_hours();
    if (!first) {
      return fmt::format(
          "it takes {} in one go, and no opening of the shop is left that is so long",
          show_duration(std::chrono::minutes(activity_.length)));
    }
    const std::string air = build() != nullptr ? bar_of_glue(*first) : bar_of_coat(*first);
    return air.empty() ? "what was done before keeps it waiting until the plan is given up"
                       : air + ", and no later start in the shop's hours is better";
  }

  [[nodiscard]] std::optional<Tick> first_in_hours() const {
    const StartSet set = starts_in(openings_,
                                   {activity_.length,
                                    model_.first_starts[static_cast<std::size_t>(none_.activity)],
                                    model_.project.horizon,
                                    {}},
                                   context_.ticks);
    return set.spans.empty() ? std::nullopt : std::optional(set.spans.front().first);
  }

  [[nodiscard]] std::string moment(Time at) const {
    return show_full(at, context_.clocks.air().zone());
  }

  [[nodiscard]] std::string bar_of_glue(Tick start) const {
    const BuildWork& work = *build();
    if (work.glue == nullptr) {
      return "";
    }
    const Glue& glue = *work.glue;
    const seconds spread = span_of(work);
    const Tick off =
        context_.lags.opening(clamp_timing(glue), glue.at_least, ticks_of(spread), 0).at(start);
    const Tick until = std::min(off, model_.project.horizon);
    if (const auto breach = glue_breach(
            context_.clocks.air(), glue, context_.ticks.time(start), context_.ticks.time(until))) {
      return fmt::format("on {} {}", moment(breach->at), breach->text);
    }
    if (off >= kNeverTick) {
      return fmt::format("{} does not set in its clamps before the plan is given up", glue.title);
    }
    const seconds open = context_.air.open_time(glue, start);
    return fmt::format("it takes {:.0f} minutes, and in the air of {} {} may lie open for {}",
                       work.work.minutes(),
                       moment(context_.ticks.time(start)),
                       glue.title,
                       std::chrono::floor<std::chrono::minutes>(open).count());
  }

  [[nodiscard]] std::string bar_of_coat(Tick start) {
    for (const SessionKey& key : role_.sessions) {
      const WorkItem& work = work_of(key);
      if (work.kind != WorkItem::Kind::kCoat) {
        continue;
      }
      LaidCoat coat;
      coat.product = work.product;
      set_film(coat, *work.step);
      const BenchSession& session =
          model_.sessions[static_cast<std::size_t>(key.part)][static_cast<std::size_t>(key.place)]
              .session;
      const Time begun = context_.ticks.time(start);
      coat.ended = begun + session.wet_end;
      const WaitRule rule{normal_deviate(context_.request.confidence), context_.request.horizon};
      const auto set = coat.past_critical_stage(context_.clocks, rule);
      const AirLimits limits(context_.clocks.air(), *work.product);
      if (const auto breach =
              limits.first_breach(begun + session.apply_offset, set.value_or(rule.horizon))) {
        return fmt::format("on {} {}", moment(breach->at), breach->text);
      }
      if (!set) {
        return never_dries(coat, name_of(work.product->limits.critical_stage));
      }
      if (!context_.air.allows(coat, session, start)) {
        return "in this air it cannot be wiped off, or what is mixed not be used up, in time";
      }
    }
    return "";
  }

  const ShopContext& context_;
  const NoPlace& none_;
  const ShopModel& model_;
  const Activity& activity_;
  const ActivityRole& role_;
  std::vector<Interval> openings_;
};

}  // namespace

std::string why_no_place(const ShopContext& context, const ShopModel& model, const NoPlace& none) {
  return Bars(context, model, none).text();
}

}  // namespace coatwright
