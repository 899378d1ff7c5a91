#include "shop_data.h"

#include <algorithm>
#include <map>

#include "outside_solver.h"

namespace coatwright {
namespace {

constexpr std::int64_t kNoLimit = 100'000'000;

/// Columns of a table, each a list of the model.
class Columns {
 public:
  explicit Columns(std::vector<std::string> names) : names_(std::move(names)) {
    values_.resize(names_.size());
  }
  void add(const std::vector<int>& row) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      values_[i].push_back(row[i]);
    }
  }
  [[nodiscard]] int rows() const { return static_cast<int>(values_.front().size()); }
  [[nodiscard]] std::string lines() const {
    std::string text;
    for (std::size_t i = 0; i < names_.size(); ++i) {
      text += list_line(names_[i], values_[i]);
    }
    return text;
  }

 private:
  std::vector<std::string> names_;
  std::vector<std::vector<int>> values_;
};

enum class Rounding { kUp, kDown };

class DataWriter {
 public:
  explicit DataWriter(const Project& project)
      : project_(project), slots_(project.horizon / project.grain), latest_(2 * slots_) {}

  std::string write() {
    std::string text = number_line("slots", slots_) + number_line("latest", latest_);
    text += works() + lags() + takes() + capacities() + exclusions() + jobs();
    // Last, when all that asks for a table has.
    text += number_line("tables", static_cast<int>(rows_.size()));
    return text + matrix_line("moment", rows_, "1.." + std::to_string(rows_.size()) + ", 0..slots");
  }

 private:
  [[nodiscard]] int slots_of(Tick ticks, Rounding rounding) const {
    const Tick down = ticks / project_.grain - (ticks % project_.grain < 0 ? 1 : 0);
    const bool more = rounding == Rounding::kUp && ticks % project_.grain != 0;
    return std::min(down + (more ? 1 : 0), latest_);
  }
  [[nodiscard]] int slots_of(Tick ticks) const { return slots_of(ticks, Rounding::kDown); }

  /// @return the number of the lag's table, 0 for a constant.
  int table_of(const Lag& lag, Rounding rounding) {
    if (lag.function == nullptr) {
      return 0;
    }
    const auto [known, is_new] =
        tables_.try_emplace({lag.function.get(), rounding}, static_cast<int>(rows_.size()) + 1);
    if (is_new) {
      std::vector<int> row;
      for (int slot = 0; slot <= slots_; ++slot) {
        row.push_back(slots_of(lag.function->at(slot * project_.grain), rounding));
      }
      rows_.push_back(std::move(row));
    }
    return known->second;
  }

  std::string works() const {
    Columns columns({"length", "starts_in"});
    for (const Activity& activity : project_.activities) {
      columns.add({slots_of(activity.length, Rounding::kUp), activity.starts + 1});
    }
    std::string sets;
    for (const StartSet& set : project_.start_sets) {
      sets += set_of(set) + ", ";
    }
    return number_line("works", columns.rows()) + columns.lines() +
           number_line("sets", static_cast<int>(project_.start_sets.size())) + "start_set = [" +
           sets + "];\n";
  }

  std::string set_of(const StartSet& set) const {
    std::string text = "{}";
    for (const StartSpan& span : set.spans) {
      text += " union " + std::to_string(slots_of(span.first)) + ".." +
              std::to_string(slots_of(span.last));
    }
    return text;
  }

  template <class Rules>
  std::string lag_columns(const Rules& rules, const std::string& kind, Rounding rounding) {
    Columns columns({kind + "_from", kind + "_to", kind + "_table", kind + "_constant"});
    for (const auto& rule : rules) {
      columns.add({rule.from + 1,
                   rule.to + 1,
                   table_of(rule.lag, rounding),
                   slots_of(rule.lag.constant, rounding)});
    }
    return number_line(kind + "_lags", columns.rows()) + columns.lines();
  }
  std::string lags() {
    return lag_columns(project_.min_lags, "min", Rounding::kUp) +
           lag_columns(project_.max_lags, "max", Rounding::kDown);
  }

  std::string takes() {
    Columns columns({"take_resource",
                     "take_amount",
                     "take_from",
                     "take_from_offset",
                     "take_to",
                     "take_to_offset",
                     "take_table"});
    for (int i = 0; i < static_cast<int>(project_.activities.size()); ++i) {
      for (const Demand& demand : project_.activities[static_cast<std::size_t>(i)].demands) {
        columns.add({demand.resource + 1,
                     demand.amount,
                     i + 1,
                     slots_of(demand.from),
                     i + 1,
                     slots_of(demand.to, Rounding::kUp),
                     0});
      }
    }
    for (const Hold& hold : project_.holds) {
      const Tick to_offset = hold.to ? hold.to_offset : hold.until.constant;
      columns.add({hold.resource + 1,
                   hold.amount,
                   hold.from + 1,
                   slots_of(hold.from_offset),
                   hold.to.value_or(hold.from) + 1,
                   slots_of(to_offset, Rounding::kUp),
                   hold.to ? 0 : table_of(hold.until, Rounding::kUp)});
    }
    return number_line("takes", columns.rows()) + columns.lines();
  }

  std::string capacities() const {
    std::vector<int> most;
    Columns blocks({"block_resource", "block_amount", "block_begin", "block_length"});
    for (std::size_t i = 0; i < project_.resources.size(); ++i) {
      const auto& steps = project_.resources[i].capacity;
      const auto highest =
          std::max_element(steps.begin(), steps.end(), [](const auto& one, const auto& other) {
            return one.capacity < other.capacity;
          });
      most.push_back(highest->capacity);
      for (std::size_t k = 0; k < steps.size(); ++k) {
        const int begin = slots_of(steps[k].at);
        const int end = k + 1 < steps.size() ? slots_of(steps[k + 1].at) : latest_;
        if (steps[k].capacity < most.back()) {
          blocks.add(
              {static_cast<int>(i) + 1, most.back() - steps[k].capacity, begin, end - begin});
        }
      }
    }
    return number_line("resources", static_cast<int>(most.size())) + list_line("capacity", most) +
           number_line("blocks", blocks.rows()) + blocks.lines();
  }

  std::string exclusions() {
    Columns stretches({"stretch_of", "stretch_from", "stretch_table", "stretch_constant"});
    Columns pairs({"apart_one", "apart_other"});
    for (const Exclusion& exclusion : project_.exclusions) {
      const int first = stretches.rows() + 1;
      const int second = first + static_cast<int>(exclusion.one_side.size());
      for (const auto* side : {&exclusion.one_side, &exclusion.other_side}) {
        for (const Stretch& one : *side) {
          stretches.add({one.activity + 1,
                         slots_of(one.from),
                         table_of(one.until, Rounding::kUp),
                         slots_of(one.until.constant, Rounding::kUp)});
        }
      }
      for (int one = first; one < second; ++one) {
        for (int other = second; other <= stretches.rows(); ++other) {
          pairs.add({one, other});
        }
      }
    }
    return number_line("stretches", stretches.rows()) + stretches.lines() +
           number_line("apart", pairs.rows()) + pairs.lines();
  }

  std::string jobs() const {
    Columns columns({"due", "weight"});
    std::string works;
    for (const Job& job : project_.jobs) {
      columns.add({slots_of(job.due), job.weight});
      works += "{";
      for (const int activity : job.activities) {
        works += std::to_string(activity + 1) + ",";
      }
      works += "}, ";
    }
    return number_line("jobs", columns.rows()) + columns.lines() + "job_works = [" + works + "];\n";
  }

  const Project& project_;
  int slots_;
  int latest_;
  std::map<std::pair<const LagFunction*, Rounding>, int> tables_;
  std::vector<std::vector<int>> rows_;
};

}  // namespace

std::string shop_data(const Project& project) {
  return DataWriter(project).write();
}

std::string goal_data(OutsideGoal goal, std::int64_t lateness_limit) {
  return number_line("goal", static_cast<int>(goal)) +
         number_line("lateness_limit", lateness_limit < 0 ? kNoLimit : lateness_limit);
}

}  // namespace coatwright
