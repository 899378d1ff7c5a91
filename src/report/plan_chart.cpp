#include "report/plan_chart.h"

#include <algorithm>
#include <set>

#include <date/date.h>
#include <fmt/format.h>

#include "report/chart_axis.h"
#include "report/part_rows.h"

namespace coatwright {
namespace {

constexpr double kMostWeight = 42.0;  // hours of work on one chart: 14 points each on A4 (taste)
constexpr int kMostDays = 7;

using Days = std::vector<date::local_days>;

/// The local days on which somebody works, in order.
Days days_of_work(const PlanView& view) {
  std::set<date::local_days> days;
  for (const PlanStep& step : view.plan.steps) {
    if (step.attended) {
      days.insert(date::floor<date::days>(view.zone.to_local(step.start)));
    }
  }
  return {days.begin(), days.end()};
}

ChartAxis axis_of(const PlanView& view, date::local_days first, date::local_days last) {
  return {view.plan,
          view.zone,
          view.zone.to_time_leniently(LocalTime(first)),
          static_cast<int>((last - first).count()) + 1};
}

/// The axes, each from its first day of work to its last.
std::vector<ChartAxis> axes_of(const PlanView& view) {
  std::vector<ChartAxis> axes;
  const Days days = days_of_work(view);
  for (std::size_t first = 0; first < days.size();) {
    std::size_t last = first;
    while (last + 1 < days.size() && (days[last + 1] - days[first]).count() < kMostDays &&
           axis_of(view, days[first], days[last + 1]).weight() <= kMostWeight) {
      ++last;
    }
    axes.push_back(axis_of(view, days[first], days[last]));
    first = last + 1;
  }
  return axes;
}

std::string_view verb_of(StepKind kind) {
  switch (kind) {
    case StepKind::kSample:
      return "sample";
    case StepKind::kSand:
      return "sand";
    case StepKind::kRaiseGrain:
      return "raise grain";
    case StepKind::kWash:
      return "wash";
    case StepKind::kFill:
      return "fill";
    case StepKind::kMask:
    case StepKind::kUnmask:
      return "masking";
    case StepKind::kWipe:
      return "wipe off";
    case StepKind::kAbrade:
      return "abrade";
    case StepKind::kFlip:
      return "turn over";
    case StepKind::kGlue:
      return "glue up";
    case StepKind::kDryFit:
      return "dry fit";
    case StepKind::kAssemble:
      return "assemble";
    case StepKind::kHardware:
      return "hardware";
    case StepKind::kRubOut:
      return "rub out";
    case StepKind::kInspect:
      return "look over";
    case StepKind::kDeliver:
      return "deliver";
    default:
      return "";  // goes along with what has a name
  }
}

std::string coat_label(const PlanStep& step) {
  return step.coat > 0 ? fmt::format("coat {}", step.coat) : "coat";
}

/// A part, or one face of it.
struct FaceRow {
  PartRow row;
  std::string face;  // empty: all of it
};

/// Whether a step is on another face than a row.
bool is_of_other(const PlanStep& step, const std::string& face) {
  return !face.empty() && !step.face.empty() && step.face != "both" && step.face != face;
}

/// A row for each face of a part that is coated one after the other; what has no face is in both.
std::vector<FaceRow> face_rows(const Plan& plan) {
  std::vector<FaceRow> rows;
  for (const PartRow& part : part_rows(plan)) {
    std::set<std::string> faces;
    for (const PlanStep* step : part.steps) {
      if (!step->face.empty() && step->face != "both") {
        faces.insert(step->face);
      }
    }
    if (faces.empty()) {
      rows.push_back({part, ""});
    }
    for (const std::string& face : faces) {
      PartRow row = part;
      row.label += ", " + face;
      std::erase_if(row.steps, [&](const PlanStep* step) { return is_of_other(*step, face); });
      rows.push_back({std::move(row), face});
    }
  }
  return rows;
}

/// Puts bars on one axis.
class RowWriter {
 public:
  explicit RowWriter(const ChartAxis& axis) : axis_(axis) {}

  void add(Time from, Time to, ChartFill fill, std::string label) {
    if (from >= axis_.end() || to <= axis_.begin() || from >= to) {
      return;
    }
    const bool begins_here = from >= axis_.begin();
    bars_.push_back(
        {axis_.share(from), axis_.share(to), fill, begins_here ? std::move(label) : ""});
  }

  [[nodiscard]] std::vector<ChartBar> bars() && { return std::move(bars_); }

 private:
  const ChartAxis& axis_;
  std::vector<ChartBar> bars_;
};

bool waits_to_recoat(const Wait& wait) {
  return wait.stage == "recoat" && wait.condition != "abrade";
}

/// Drying and windows lie beneath the work.
void add_waits(const Plan& plan, const FaceRow& row, RowWriter& writer) {
  const auto is_here = [&](const Wait& wait) {  // its film lies on this face
    return std::none_of(plan.steps.begin(), plan.steps.end(), [&](const PlanStep& step) {
      return step.id == wait.step && is_of_other(step, row.face);
    });
  };
  for (const PlanStep* step : row.row.steps) {
    for (const Wait& wait : step->after) {
      const bool dries = wait.stage != "wipe-off" && wait.stage != "pot life";
      if (dries && !step->done && is_here(wait)) {
        writer.add(wait.since, wait.opens_at, ChartFill::kLine, "");
      }
    }
    if (step->kind == StepKind::kWait) {
      const bool clamps = step->benches > 0;
      writer.add(step->start,
                 step->end,
                 clamps ? ChartFill::kOpen : ChartFill::kLine,
                 clamps ? "in clamps" : "");
    }
  }
  for (const PlanStep* step : row.row.steps) {
    for (const Wait& wait : step->after) {
      if (waits_to_recoat(wait) && !step->done && is_here(wait)) {
        writer.add(wait.opens_at, wait.closes_at.value_or(step->start), ChartFill::kDotted, "");
      }
    }
  }
}

/// Other work that goes on from the one before is one bar, named by the first that has a name.
void add_work(const PartRow& row, RowWriter& writer) {
  std::optional<Interval> work;
  std::string label;
  const auto put = [&] {
    if (work) {
      writer.add(work->start, work->end, ChartFill::kHatched, label);
    }
    work.reset();
    label.clear();
  };
  for (const PlanStep* step : row.steps) {
    if (!step->attended || step->kind == StepKind::kApply) {
      continue;
    }
    if (!work || step->start > work->end) {
      put();
      work = Interval{step->start, step->end};
    }
    work->end = std::max(work->end, step->end);
    label = label.empty() ? std::string(verb_of(step->kind)) : label;
  }
  put();
}

void add_coats(const PartRow& row, RowWriter& writer) {
  for (const PlanStep* step : row.steps) {
    if (step->kind == StepKind::kApply) {
      writer.add(step->start, step->end, ChartFill::kSolid, coat_label(*step));
    }
  }
}

SheetChart chart_on(const Plan& plan, const ChartAxis& axis, const std::vector<FaceRow>& rows) {
  SheetChart chart;
  chart.ticks = axis.ticks();
  chart.closed = axis.closed();
  for (const FaceRow& row : rows) {
    RowWriter writer(axis);
    add_waits(plan, row, writer);
    add_work(row.row, writer);
    add_coats(row.row, writer);
    chart.rows.push_back({row.row.label, std::move(writer).bars()});
  }
  chart.legend = {{ChartFill::kSolid, "coat"},
                  {ChartFill::kHatched, "other work"},
                  {ChartFill::kLine, "dries or waits"},
                  {ChartFill::kDotted, "may be coated again"},
                  {ChartFill::kOpen, "in clamps"}};
  chart.closed_label = "nobody there (drawn narrower)";
  return chart;
}

/// Drops the legend's entries that no chart of the plan shows.
void drop_unused(std::vector<PlanChart>& charts) {
  std::set<ChartFill> used;
  for (const PlanChart& one : charts) {
    for (const ChartRow& row : one.chart.rows) {
      for (const ChartBar& bar : row.bars) {
        used.insert(bar.fill);
      }
    }
  }
  for (PlanChart& one : charts) {
    std::erase_if(one.chart.legend, [&](const auto& entry) { return !used.contains(entry.first); });
  }
}

}  // namespace

std::vector<PlanChart> plan_charts(const PlanView& view) {
  const std::vector<FaceRow> rows = face_rows(view.plan);
  std::vector<PlanChart> charts;
  for (const ChartAxis& axis : axes_of(view)) {
    const std::string first = show_date(axis.begin(), view.zone);
    const std::string last = show_date(axis.end() - std::chrono::seconds(1), view.zone);
    charts.push_back(
        {first == last ? "Hour by hour, " + first : "Hour by hour, " + first + " to " + last,
         chart_on(view.plan, axis, rows)});
  }
  drop_unused(charts);
  return charts;
}

}  // namespace coatwright
