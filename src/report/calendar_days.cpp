#include "report/calendar_days.h"

#include <algorithm>
#include <optional>
#include <set>
#include <vector>

#include <date/date.h>
#include <fmt/format.h>

#include "base/quantity_text.h"
#include "report/air_range.h"
#include "report/room_words.h"
#include "report/shop_hours.h"
#include "report/step_lines.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

constexpr std::size_t kTextColumn = 19;
constexpr std::size_t kNoteColumn = kTextColumn + 2;
constexpr std::chrono::hours kWorthSaying{1};  // shorter gaps within a day are seen by the times

std::string beside(std::string_view times, std::string_view text) {
  return wrap(text, "  " + padded(times, kTextColumn - 2), std::string(kTextColumn, ' '));
}

std::string beneath(std::string_view text) {
  return wrap(text, kTextColumn, kNoteColumn);
}

std::string caution_lines(std::string_view text) {
  return wrap(text, std::string(kTextColumn, ' ') + "! ", std::string(kNoteColumn, ' '));
}

// Writes one step after the other and remembers what the page has said so far.
class DayWriter {
 public:
  explicit DayWriter(const PlanView& view)
      : view_(view), session_after_(view.plan.from), attended_until_(view.plan.from) {}

  /// A moment at which nobody has to do anything. @param next when somebody is needed again; none:
  /// not any more.
  void add_moment(const PlanStep& step, std::optional<Time> next) {
    const auto day = date::floor<date::days>(view_.zone.to_local(step.start));
    if (next && step.start >= attended_until_ &&
        (day_ != day || *next - attended_until_ >= kWorthSaying)) {
      add_hours_alone(*next);
    }
    if (day_ != day) {
      add_heading(day, step.start);
    }
    add_step(step);
  }

  void add(const PlanStep& step) {
    const auto day = date::floor<date::days>(view_.zone.to_local(step.start));
    const bool new_day = day_ != day;
    if (new_day || step.start - attended_until_ >= kWorthSaying) {
      add_hours_alone(step.start);
    }
    if (new_day) {
      add_heading(day, step.start);
    }
    if (step.attended && step.start > attended_until_) {
      session_after_ = attended_until_;
    }
    add_waits(step);
    add_step(step);
    if (step.attended) {
      attended_until_ = std::max(attended_until_, step.end);
    }
  }

  [[nodiscard]] std::string text() && { return std::move(text_); }

 private:
  void add_heading(date::local_days day, Time time);
  void add_hours_alone(Time until);
  void add_waits(const PlanStep& step);
  void add_step(const PlanStep& step);
  void add_air(const PlanStep& step);
  void add_closings(const PlanStep& step);
  void add_cautions(const PlanStep& step);
  [[nodiscard]] std::string what_dries_at(Time time) const;

  const PlanView& view_;
  std::string text_;
  std::optional<date::local_days> day_;
  Time session_after_;  // End of the work before the gap before the present session.
  Time attended_until_;
  std::optional<Time> told_until_;    // Hours in which nobody is needed are told up to here.
  std::set<std::string> said_today_;  // Notes and cautions: each in full once a day.
};

void DayWriter::add_heading(date::local_days day, Time time) {
  text_ += "\n" + underlined(show_date(time, view_.zone), '-');
  std::string line;
  if (const auto hours = shop_hours_on_day(view_.plan.hours, time, view_.zone); !hours.empty()) {
    line = "Shop hours " + hours + ". ";
  }
  const Time midnight = view_.zone.to_time_leniently(LocalTime(day));
  const Time next = view_.zone.to_time_leniently(LocalTime(day + date::days(1)));
  if (const AirRange air = air_between(view_.plan, midnight, next); !air.empty()) {
    line += fmt::format("Air {} ({}).", air.text(view_.units), air.origins_text());
  }
  text_ += line.empty() ? "" : wrap(line, 0, 0);
  day_ = day;
  said_today_.clear();
}

// Nights, closed days and long gaps, written in the day on which they begin.
void DayWriter::add_hours_alone(Time until) {
  if (!day_ || until <= attended_until_ || told_until_ == until) {
    return;
  }
  told_until_ = until;
  const std::string drying = what_dries_at(attended_until_);
  text_ += beside(span_text(shown_minute(attended_until_), shown_minute(until), view_.zone),
                  fmt::format("Nobody needed for {}{}.",
                              show_duration(until - attended_until_),
                              drying.empty() ? "" : ": " + drying));
}

std::string DayWriter::what_dries_at(Time time) const {
  std::set<std::string> products;
  for (const PlanStep& step : view_.plan.steps) {
    const bool dries = step.kind == StepKind::kWait && step.start <= time && time < step.end;
    if (dries && !step.product.empty()) {
      products.insert(title_in_sentence(view_.plan, step.product));
    }
    for (const Wait& wait : step.after) {
      if (wait.since <= time && time < wait.opens_at && !wait.product.empty()) {
        products.insert(title_in_sentence(view_.plan, wait.product));
      }
    }
  }
  if (products.empty()) {
    return "";
  }
  return fmt::format("{} {}", fmt::join(products, " and "), products.size() == 1 ? "dries" : "dry");
}

std::string integral_text(const Wait& wait, UnitSystem units) {
  std::string text = wait.mechanism;
  if (wait.needed.hours() > 0) {
    text += fmt::format("{}{} needed at {}, earned {}",
                        text.empty() ? "" : "; ",
                        hours_text(wait.needed, wait.needed),
                        reference_air_text(units),
                        hours_text(wait.earned, wait.needed));
  }
  return text.empty() ? "" : " (" + text + ")";
}

// Only waits that somebody really waits for: now, or in the gap before the present session, in
// which mixing and abrading come before the coat that waits. The explanation shows them all.
void DayWriter::add_waits(const PlanStep& step) {
  if (step.done) {
    return;
  }
  std::vector<const Wait*> waits;
  for (const Wait& wait : step.after) {
    const bool in_gap = wait.since <= session_after_ && wait.opens_at > session_after_;
    if (in_gap || wait.opens_at > attended_until_) {
      waits.push_back(&wait);
    }
  }
  std::stable_sort(waits.begin(), waits.end(), [](const Wait* a, const Wait* b) {
    return a->opens_at < b->opens_at;
  });
  std::set<std::string> said;
  for (const Wait* wait : waits) {
    const auto line = fmt::format("wait until {}: {}{}",
                                  moment_text(shown_minute(wait->opens_at), step.start, view_.zone),
                                  reason_of(view_.plan, *wait),
                                  integral_text(*wait, view_.units));
    text_ += said.insert(line).second ? beneath(line) : "";
  }
}

void DayWriter::add_step(const PlanStep& step) {
  std::string sentence = sentence_of(view_.plan, step);
  if (const std::string uses = has_several_parts(view_.plan) ? uses_of(view_.plan, step) : "";
      !uses.empty()) {
    sentence += " [" + uses + "]";
  }
  sentence += hazards_mark(step);
  sentence += step.attended || step.start == step.end ? "" : " (nobody needed)";
  sentence += step.done ? " [done]" : "";
  text_ +=
      beside(span_text(shown_minute(step.start), shown_minute(step.end), view_.zone), sentence);
  add_air(step);
  add_closings(step);
  for (const std::string& note : step.notes) {
    if (said_today_.insert(note).second) {
      text_ += wrap(note, kNoteColumn, kNoteColumn);
    }
  }
  add_cautions(step);
}

// Where a film goes on, the maker measures the air first and needs to know what was reckoned with.
void DayWriter::add_air(const PlanStep& step) {
  if (step.kind != StepKind::kApply || step.done) {
    return;
  }
  text_ += wrap(air_line(view_, step), kNoteColumn, kNoteColumn);
  if (const std::string vapour = vapour_line(view_.plan, step); !vapour.empty()) {
    text_ += wrap(vapour, kNoteColumn, kNoteColumn);
  }
}

void DayWriter::add_closings(const PlanStep& step) {
  if (step.done) {
    return;
  }
  for (const std::string& line : closing_lines(view_, step)) {
    text_ += wrap(line, kNoteColumn, kNoteColumn);
  }
}

void DayWriter::add_cautions(const PlanStep& step) {
  for (const std::string& caution : step.cautions) {
    if (said_today_.insert(caution).second) {
      text_ += caution_lines(caution);
    }
  }
}

/// Fan off, and when the air may be breathed: no work.
bool is_moment(const PlanStep& step) {
  return !step.attended && step.start == step.end && !step.done;
}

std::optional<Time> next_attended(const std::vector<const PlanStep*>& steps, std::size_t from) {
  for (std::size_t i = from; i < steps.size(); ++i) {
    if (steps[i]->attended && !steps[i]->done) {
      return steps[i]->start;
    }
  }
  return std::nullopt;
}

}  // namespace

std::string calendar_days(const PlanView& view) {
  DayWriter writer(view);
  const auto steps = steps_in_order(view.plan);
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (is_moment(*steps[i])) {
      writer.add_moment(*steps[i], next_attended(steps, i));
    } else if (!is_told_by_gaps(*steps[i], *steps.back())) {
      writer.add(*steps[i]);
    }
  }
  return std::move(writer).text();
}

}  // namespace coatwright
