#include "recipe/building_job.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <set>

#include <fmt/format.h>

#include "recipe/part_limits.h"
#include "recipe/timing_reader.h"

namespace coatwright {
namespace {

constexpr NumberRange kRackRange = {0.0, 99.0};
constexpr NumberRange kPeopleRange = {1.0, 99.0};
constexpr NumberRange kMinutesRange = {0.0, 1440.0, true};

/// What is usual for a kind of work; a file may say otherwise. Judgement, from common practice.
struct WorkKind {
  std::string_view name;
  std::string_view words;             ///< As calendars print it where the file has no name for it.
  std::optional<bool> before_finish;  ///< None: the file must say.
  bool at_bench;
  Stage needs;         ///< Of the films, where it follows the finishing.
  bool either = true;  ///< Whether it may stand on the other side of the finishing too.
  bool joins = false;  ///< What it is on becomes one thing.
};

constexpr WorkKind kKinds[] = {
    {"dry_fit", "dry fit", true, true, Stage::kHandle, true, false},
    {"glue", "glue up", std::nullopt, true, Stage::kPrintFree, true, true},
    {"mask", "mask", true, false, Stage::kHandle, false, false},
    {"sand", "sand", true, true, Stage::kHandle, false, false},
    {"unmask", "take the masking off", false, false, Stage::kTackFree, false, false},
    {"assemble", "assemble", std::nullopt, true, Stage::kHandle, true, true},
    {"hardware", "fit the hardware", false, true, Stage::kHandle, true, false},
    {"inspect", "look it over", false, false, Stage::kHandle, true, false},
    {"deliver", "deliver", false, false, Stage::kPrintFree, false, false},
};

std::vector<std::string_view> kind_names() {
  std::vector<std::string_view> names;
  for (const WorkKind& kind : kKinds) {
    names.push_back(kind.name);
  }
  return names;
}

const WorkKind& kind_named(std::string_view name) {
  return *std::find_if(std::begin(kKinds), std::end(kKinds), [name](const WorkKind& kind) {
    return kind.name == name;
  });
}

/// Makes the units of a list of parts, and finds them again by the names of units and parts.
class Units {
 public:
  explicit Units(const std::vector<Part>& parts) : parts_(parts) {
    for (const Part& part : parts) {
      add(part);
    }
    if (units_.size() == 1 && units_.front().name == kBodyUnit) {
      rename_body();
    }
  }

  std::vector<FinishUnit>& all() { return units_; }

  /// The units of a name: one, or those of a part of which each is apart, or the one that a part is
  /// in. @return none where nothing has the name.
  [[nodiscard]] std::vector<int> named(const std::string& name) const {
    std::vector<int> found;
    for (std::size_t i = 0; i < units_.size(); ++i) {
      const auto& parts = units_[i].parts;
      const bool holds = std::any_of(
          parts.begin(), parts.end(), [&](const Part& part) { return part.name == name; });
      if (units_[i].name == name) {
        return {static_cast<int>(i)};
      }
      if (holds) {
        found.push_back(static_cast<int>(i));
      }
    }
    return found;
  }

  /// What is wrong with the parts of a unit; empty: nothing.
  [[nodiscard]] std::string conflict() const {
    for (const FinishUnit& unit : units_) {
      for (const Part& part : unit.parts) {
        if (part.before_assembly != unit.parts.front().before_assembly) {
          return fmt::format(
              "the parts \"{}\" and \"{}\" are in the unit \"{}\", and only one of them is "
              "finished before assembly; allowed: the same finish for all parts of a unit",
              unit.parts.front().name,
              part.name,
              unit.name);
        }
      }
    }
    return name_twice();
  }

 private:
  void add(const Part& part) {
    if (!part.apart) {
      const std::string own(part.before_assembly ? std::string_view(part.name) : kBodyUnit);
      unit_named(part.unit.empty() ? own : part.unit).parts.push_back(part);
      return;
    }
    Part one = part;
    one.count = 1;
    for (int i = 1; i <= part.count; ++i) {
      const std::string number = part.count == 1 ? "" : fmt::format(" {}", i);
      unit_named(part.name + number).parts.push_back(one);
    }
  }

  FinishUnit& unit_named(const std::string& name) {
    for (FinishUnit& unit : units_) {
      if (unit.name == name) {
        return unit;
      }
    }
    units_.emplace_back().name = name;
    return units_.back();
  }

  /// Where nothing is divided, the parts are not a body among others.
  void rename_body() {
    const bool said = std::any_of(
        parts_.begin(), parts_.end(), [](const Part& part) { return part.unit == kBodyUnit; });
    units_.front().name = said ? kBodyUnit : kWholeUnit;
  }

  /// Work and log entries name parts: where there are several units, each part is one line.
  [[nodiscard]] std::string name_twice() const {
    std::set<std::string> names;
    for (const Part& part : parts_) {
      if (units_.size() > 1 && !names.insert(part.name).second) {
        return fmt::format(
            "two parts are named \"{}\"; allowed: another name for each, where "
            "parts are finished in several units",
            part.name);
      }
    }
    return "";
  }

  const std::vector<Part>& parts_;
  std::vector<FinishUnit> units_;
};

UnitFaces read_faces(TomlTable& table, const FinishUnit& unit) {
  static const NamedValues<UnitFaces> kFaces = {
      {"one", UnitFaces::kOne}, {"two", UnitFaces::kTwo}, {"points", UnitFaces::kOnPoints}};
  if (!table.has("faces")) {
    return UnitFaces::kAsParts;
  }
  const UnitFaces faces = choice(table, "faces", kFaces);
  if (table.ok() && (faces == UnitFaces::kOne) == unit.has_both_faces()) {
    table.wrong("faces",
                unit.has_both_faces() ? "two or points: a part of it has both faces coated"
                                      : "one: each part of it has one face coated");
  }
  return faces;
}

/// Reads one [[unit]]: what it says holds for the unit of its name, or for all of a part that is
/// apart.
void read_unit(TomlTable& table, Units& units, std::set<std::string>& seen) {
  const std::string name = table.text("name");
  const auto found = units.named(name);
  if (table.ok() && found.empty()) {
    table.wrong("name", "a unit that parts name, or a part");
  }
  if (table.ok() && !seen.insert(name).second) {
    table.wrong("name", "each unit once in the file");
  }
  const std::string schedule = table.text_or("schedule");
  const int places = table.count_or("rack_places", 1, kRackRange);
  for (const int index : found) {
    FinishUnit& unit = units.all()[static_cast<std::size_t>(index)];
    unit.schedule = schedule;
    unit.rack_places = places;
    unit.faces = read_faces(table, unit);
  }
  table.finish();
}

/// The units that a work is on; all where it does not say.
std::vector<int> read_work_units(TomlTable& table, Units& units) {
  std::set<int> chosen;
  for (const std::string& name : table.texts("parts", false)) {
    const auto found = units.named(name);
    if (table.ok() && found.empty()) {
      table.wrong("parts", fmt::format("names of parts and units; \"{}\" is none", name));
    }
    chosen.insert(found.begin(), found.end());
  }
  if (chosen.empty()) {
    for (std::size_t i = 0; i < units.all().size(); ++i) {
      chosen.insert(static_cast<int>(i));
    }
  }
  return {chosen.begin(), chosen.end()};
}

bool read_when(TomlTable& table, const WorkKind& kind) {
  if (!table.has("when") && kind.before_finish) {
    return *kind.before_finish;
  }
  const bool before =
      table.name("when", {"before finishing", "after finishing"}) == "before finishing";
  if (table.ok() && !kind.either && before != kind.before_finish) {
    table.wrong("when",
                fmt::format("\"{} finishing\" for {}",
                            kind.before_finish.value_or(false) ? "before" : "after",
                            kind.name));
  }
  return before;
}

UnitWork read_work(TomlTable& table, Units& units) {
  UnitWork work;
  const WorkKind& kind = kind_named(table.name("kind", kind_names()));
  work.kind = kind.name;
  work.name = table.text_or("name", std::string(kind.words));
  work.units = read_work_units(table, units);
  work.before_finish = read_when(table, kind);
  work.work = Hours::from_minutes(table.number("minutes", kMinutesRange));
  work.people = table.count_or("people", 1, kPeopleRange);
  work.at_bench = table.has("bench") ? table.flag("bench") : kind.at_bench;
  work.glue = kind.name == "glue" ? table.text("glue") : table.text_or("glue");
  if (table.ok() && kind.name != "glue" && !work.glue.empty()) {
    table.wrong("glue", "the name of a glue, for kind = \"glue\" only");
  }
  work.needs = table.has("needs") ? choice(table, "needs", known_stages()) : kind.needs;
  if (table.ok() && table.has("needs") && work.before_finish) {
    table.wrong("needs", "a stage of the films, of work after finishing only");
  }
  if (table.ok() && work.before_finish && kind.joins && work.units.size() > 1) {
    table.wrong(
        "parts of several units are joined before finishing; allowed: parts of one unit, since "
        "what is joined is finished as one thing, or when = \"after finishing\"");
  }
  table.finish();
  return work;
}

/// Work stands in its order: of one unit, what is before the finishing first.
void check_order(TomlTable& table, const UnitWork& work, std::set<int>& finished) {
  for (const int unit : work.units) {
    if (table.ok() && work.before_finish && finished.contains(unit)) {
      table.wrong(
          "it is done before a finishing that work above it follows; allowed: work in its order");
    }
    if (!work.before_finish) {
      finished.insert(unit);
    }
  }
}

void read_units_and_work(TomlTable& root, BuildingJob& job) {
  Units units(job.parts);
  if (const std::string conflict = units.conflict(); root.ok() && !conflict.empty()) {
    root.wrong(conflict);
  }
  std::set<std::string> seen;
  for (TomlTable& table : root.tables("unit", false)) {
    read_unit(table, units, seen);
  }
  std::set<int> finished;
  for (TomlTable& table : root.tables("work", false)) {
    job.work.push_back(read_work(table, units));
    check_order(table, job.work.back(), finished);
  }
  job.units = std::move(units.all());
}

Result<BuildingJob> read_toml(std::string_view text, const std::string& label) {
  Result<TomlFile> file = TomlFile::parse(text, label);
  if (!file) {
    return pass_on(std::move(file.error()));
  }
  BuildingJob job;
  TomlTable root = file->root();
  for (TomlTable& table : root.tables("part", true)) {
    job.parts.push_back(read_part(table));
  }
  read_units_and_work(root, job);
  root.finish();
  if (file->error()) {
    return tl::unexpected(*file->error());
  }
  return job;
}

}  // namespace

bool FinishUnit::has_both_faces() const {
  return std::any_of(parts.begin(), parts.end(), [](const Part& part) { return part.faces == 2; });
}

std::string FinishUnit::parts_text() const {
  std::string text;
  for (const Part& part : parts) {
    text += fmt::format("{}{} x {}", text.empty() ? "" : ", ", part.count, part.name);
  }
  return text;
}

bool BuildingJob::is_divided() const {
  if (units.size() != 1 || !work.empty()) {
    return true;
  }
  const FinishUnit& whole = units.front();
  return whole.name != kWholeUnit || whole.faces != UnitFaces::kAsParts || whole.rack_places != 1 ||
         !whole.schedule.empty();
}

Result<BuildingJob> read_building_job(std::string_view text, const std::string& label) {
  if (label.ends_with(".toml")) {
    return read_toml(text, label);
  }
  auto parts = read_part_list_csv(text, label);
  if (!parts) {
    return pass_on(parts.error());
  }
  BuildingJob job{std::move(*parts), {}, {}};
  job.units = std::move(Units(job.parts).all());
  return job;
}

}  // namespace coatwright
