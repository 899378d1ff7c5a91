#include "recipe/label_figures.h"

#include <algorithm>

#include <fmt/format.h>

#include "recipe/label_order.h"
#include "recipe/label_recoat.h"
#include "recipe/label_stages.h"
#include "recipe/product_reader.h"
#include "recipe/recipe_names.h"
#include "recipe/toml_document.h"

namespace coatwright {
namespace {

constexpr double kFarOff = 20.0;  // judgement: beyond it a figure is rather a slip of the finger

NumbersRange hours_of(const DurationRange& range) {
  return {range.low().hours(), range.high().hours()};
}

std::string comment_safe(std::string text) {
  std::replace_if(
      text.begin(), text.end(), [](unsigned char c) { return c < 0x20U || c == 0x7fU; }, ' ');
  return text;
}

/// Makes the file: keeps what every part needs.
class LabelWriter {
 public:
  LabelWriter(const Product& of_class, TomlKeys document, const LabelFigures& label)
      : class_(of_class),
        document_(std::move(document)),
        label_(label),
        air_(label.air ? label.air->value
                       : TemperatureAndHumidity{kReferenceTemperature, kReferenceHumidity}) {}

  Result<std::string> whole() {
    set_head();
    set_limits();
    for (const auto part : {&LabelWriter::check_air,
                            &LabelWriter::check_stages,
                            &LabelWriter::set_stages,
                            &LabelWriter::set_film,
                            &LabelWriter::set_mix}) {
      if (const Result<void> done = (this->*part)(); !done) {
        return pass_on(done.error());
      }
    }
    std::string text = heading() + toml_text(document_);
    const auto read = parse_product(text, label_.name + ".toml", label_.name);
    if (!read) {
      return pass_on(read.error());
    }
    return text;
  }

 private:
  /// "2h-4h at 60F,50%": with the source before it, a page shows [label: 2h-4h at 60F,50%].
  [[nodiscard]] std::string note(const std::string& typed) const {
    return label_.air ? fmt::format("{} at {}", typed, label_.air->text)
                      : fmt::format("{}, no air named", typed);
  }

  void set_head() {
    document_.set("name", label_.name);
    if (!label_.title.empty()) {
      document_.set("title", label_.title);
    }
    document_.set("layer", class_.layer, "title");
    document_.set("made_from", class_.name, "layer");
  }

  void set_limit(const char* key, const char* unit, double value, const std::string& typed) {
    TomlKeys& limits = document_.table("limits");
    limits.remove(key);
    TomlKeys& limit = limits.table(key, true);
    limit.set(unit, value);
    limit.set("source", "label");
    limit.set("note", typed);
  }

  void set_limits() {
    if (label_.temperature) {
      const auto& [range, typed] = *label_.temperature;
      set_limit("temperature_min", "celsius", range.low.celsius(), typed);
      set_limit("temperature_max", "celsius", range.high.celsius(), typed);
    }
    if (label_.humidity_max) {
      set_limit("humidity_max",
                "percent",
                label_.humidity_max->value.percent(),
                label_.humidity_max->text);
    }
  }

  /// Hours in an air in which nothing is credited cannot be brought to another.
  Result<void> check_air() {
    const std::optional<Temperature> lowest =
        label_.temperature              ? std::optional(label_.temperature->value.low)
        : class_.limits.temperature_min ? std::optional(class_.limits.temperature_min->value)
                                        : std::nullopt;
    if (lowest && air_.temperature < *lowest) {
      return fail(ErrorCode::kOutOfRange,
                  fmt::format("--in-air: {} is below {}, under which it is not to be put on; where "
                              "the label allows it, say so with --temperature",
                              show_temperature(air_.temperature, UnitSystem::kMetric),
                              show_temperature(*lowest, UnitSystem::kMetric)));
    }
    for (const auto& [stage, drying] : class_.stages) {
      for (const Phase& phase : drying.timing.phases) {
        const auto stops = phase.law.stops_below();
        if (phase.law.rate(air_.temperature, air_.humidity) <= 0.0 ||
            (stops && air_.temperature < *stops)) {
          return fail(ErrorCode::kOutOfRange,
                      fmt::format("--in-air: in this air the stage {} stands still ({})",
                                  name_of(stage),
                                  phase.law.description()));
        }
      }
    }
    return {};
  }

  Result<void> check_stages() {
    for (const auto& [stage, hours] : label_.stages) {
      if (class_.stage(stage) == nullptr) {
        return fail(ErrorCode::kUsage,
                    fmt::format("{}: the class '{}' has no stage {}, so that the law of its hours "
                                "is not known; leave it out",
                                label_option_of(stage),
                                class_.name,
                                name_of(stage)));
      }
    }
    return check_label_order(label_);
  }

  /// A figure and the class's: far off is what lies outside the class's range by a great factor.
  struct Compared {
    NumbersRange own;
    NumbersRange of_class;
    std::string_view unit;
  };

  [[nodiscard]] Result<void> check_near(std::string_view option,
                                        const std::string& typed,
                                        const Compared& figures) const {
    const bool below = figures.own.low * kFarOff < figures.of_class.low;
    const bool above = figures.own.high > figures.of_class.high * kFarOff;
    if (label_.far_off || (!below && !above)) {
      return {};
    }
    return fail(ErrorCode::kOutOfRange,
                fmt::format("{} {}: {:.3g} {} is more than a factor {:.0f} from the {:.3g} {} of "
                            "'{}'; if it is meant so, say --force",
                            option,
                            typed,
                            below ? figures.own.low : figures.own.high,
                            figures.unit,
                            kFarOff,
                            below ? figures.of_class.low : figures.of_class.high,
                            figures.unit,
                            class_.name));
  }

  [[nodiscard]] std::vector<StageLink> links() {
    std::vector<StageLink> links;
    for (TomlKeys* stage : document_.tables("stage")) {
      links.push_back({*stage_named(stage->text("name")), stage_named(stage->text("after"))});
    }
    return links;
  }

  Result<void> set_stages() {
    std::map<Stage, HoursRange> given;
    for (const auto& [stage, hours] : label_.stages) {
      given.emplace(stage, hours.value);
    }
    const auto stages = stages_by_label(class_, links(), given, air_);
    for (TomlKeys* keys : document_.tables("stage")) {
      const Stage stage = *stage_named(keys->text("name"));
      const LabelledStage& own = stages.at(stage);
      if (own.origin == FigureOrigin::kLabel) {
        if (const auto near = check_stage(stage, own.whole); !near) {
          return near;
        }
      }
      set_stage(*keys, stage, own);
    }
    return set_recoat(stages);
  }

  [[nodiscard]] Result<void> check_stage(Stage stage, const DurationRange& own) const {
    return check_near(label_option_of(stage),
                      label_.stages.at(stage).text,
                      {hours_of(own), hours_of(class_.stages.at(stage).timing.whole()), "h"});
  }

  void set_stage(TomlKeys& keys, Stage stage, const LabelledStage& own) {
    if (own.origin == FigureOrigin::kClass) {
      return;
    }
    const DurationRange of_class = class_.stages.at(stage).timing.whole();
    keys.set("low_hours", own.whole.low().hours());
    keys.set("high_hours", own.whole.high().hours());
    const bool of_label = own.origin == FigureOrigin::kLabel;
    keys.set("source", of_label ? "label" : "judgement");
    keys.set("note",
             of_label ? note(label_.stages.at(stage).text)
                      : fmt::format("not on the label; {:g} to {:g} h of the class, moved with the "
                                    "label's figures so that the stages stay in order",
                                    of_class.low().hours(),
                                    of_class.high().hours()),
             "source");
  }

  Result<void> set_recoat(const std::map<Stage, LabelledStage>& stages) {
    const auto own = stages.find(Stage::kRecoat);
    const DurationRange none(Hours::from_hours(0), Hours::from_hours(0));
    std::optional<RecoatChange> change;
    if (own != stages.end() && own->second.origin != FigureOrigin::kClass) {
      change = RecoatChange{class_.stages.at(Stage::kRecoat).timing.whole(), own->second.whole};
    }
    std::optional<HoursRange> closes;
    if (label_.recoat_by && own != stages.end()) {
      const RateLaw& law = class_.stages.at(Stage::kRecoat).timing.phases.back().law;
      closes = closing_by_label(label_.recoat_by->value, law, air_);
    } else if (label_.recoat_by) {
      return fail(ErrorCode::kUsage,
                  fmt::format("--recoat-by: the class '{}' has no stage recoat, so that the law of "
                              "its hours is not known; leave it out",
                              class_.name));
    }
    return set_recoat_intervals(
        document_, change, own == stages.end() ? none : own->second.before, closes);
  }

  Result<void> set_film() {
    TomlKeys& film = document_.table("film");
    if (label_.coverage) {
      const auto& [range, typed] = *label_.coverage;
      const NumbersRange usual{class_.film.spread_low_m2_per_l, class_.film.spread_high_m2_per_l};
      const auto near = check_near("--coverage", typed, {range, usual, "m2/L"});
      if (!near) {
        return near;
      }
      film.set("spread_low_m2_per_l", range.low);
      film.set("spread_high_m2_per_l", range.high);
      film.set("spread_source", "label");
    }
    if (label_.solids) {
      film.set("solids_low_percent", label_.solids->value.low);
      film.set("solids_high_percent", label_.solids->value.high, "solids_low_percent");
      film.set("solids_source", "label", "solids_high_percent");
      film.set("solids_note", label_.solids->text, "solids_source");
    }
    return {};
  }

  Result<void> set_mix() {
    if (!label_.mix && !label_.pot_life && !label_.induction) {
      return {};
    }
    if (!class_.mix) {
      return fail(ErrorCode::kUsage,
                  fmt::format("the class '{}' is not mixed of parts; --mix, --pot-life and "
                              "--induction belong to a class that is",
                              class_.name));
    }
    TomlKeys& mix = document_.table("mix");
    if (const auto done = set_parts(mix); !done) {
      return done;
    }
    if (label_.induction) {
      mix.set("induction_minutes", label_.induction->value.high.minutes());
      mix.set("induction_source", "label", "induction_minutes");
    }
    return label_.pot_life ? set_pot_life(mix) : Result<void>();
  }

  Result<void> set_parts(TomlKeys& mix) {
    if (!label_.mix) {
      return {};
    }
    const std::vector<TomlKeys*> parts = mix.tables("part");
    if (parts.size() != label_.mix->value.size()) {
      return fail(
          ErrorCode::kUsage,
          fmt::format(
              "--mix {}: '{}' is mixed of {} parts", label_.mix->text, class_.name, parts.size()));
    }
    for (std::size_t i = 0; i < parts.size(); ++i) {
      parts[i]->set("parts", label_.mix->value[i]);
    }
    mix.set("parts_source", "label");
    return {};
  }

  Result<void> set_pot_life(TomlKeys& mix) {
    if (!class_.mix->pot_life) {
      return fail(ErrorCode::kUsage,
                  fmt::format("--pot-life: the class '{}' has none, so that the law of its hours "
                              "is not known; leave it out",
                              class_.name));
    }
    const auto& [hours, typed] = *label_.pot_life;
    const HoursRange own = closing_by_label(hours, class_.mix->pot_life_law, air_);
    const auto near =
        check_near("--pot-life",
                   typed,
                   {{own.low.hours(), own.high.hours()}, hours_of(*class_.mix->pot_life), "h"});
    if (!near) {
      return near;
    }
    mix.set("pot_life_low_hours", own.low.hours());
    mix.set("pot_life_high_hours", own.high.hours());
    mix.set("pot_life_source", "label");
    return {};
  }

  /// What was typed, for who reads the file.
  [[nodiscard]] std::string heading() const {
    std::string typed;
    const auto add = [&typed](std::string_view what, const std::string& text) {
      typed += fmt::format("#   {} {}\n", what, text);
    };
    for (const auto& [stage, hours] : label_.stages) {
      add(label_option_of(stage).substr(2), hours.text);
    }
    const auto add_if = [&add](std::string_view what, const auto& figure) {
      if (figure) {
        add(what, figure->text);
      }
    };
    add_if("recoat-by", label_.recoat_by);
    add_if("coverage", label_.coverage);
    add_if("solids", label_.solids);
    add_if("mix", label_.mix);
    add_if("pot-life", label_.pot_life);
    add_if("induction", label_.induction);
    add_if("temperature", label_.temperature);
    add_if("humidity-max", label_.humidity_max);
    return fmt::format(
        "# {}: the shop's own,\n# made of the class '{}' and of the label in the maker's hand.\n"
        "# Mechanisms, hazards, cautions and all that the label does not say are the class's.\n"
        "# On the label, {}:\n{}",
        comment_safe(document_.text("title")),
        class_.name,
        label_.air ? "at " + label_.air->text : "which names no air, taken as 23C,50%",
        typed);
  }

  const Product& class_;
  TomlKeys document_;
  const LabelFigures& label_;
  TemperatureAndHumidity air_;
};

}  // namespace

bool LabelFigures::empty() const {
  return stages.empty() && !recoat_by && !coverage && !solids && !mix && !pot_life && !induction &&
         !temperature && !humidity_max;
}

Result<std::string> product_text_from_label(const Product& of_class,
                                            std::string_view class_text,
                                            const LabelFigures& label) {
  if (!is_recipe_name(label.name)) {
    return fail(ErrorCode::kUsage,
                fmt::format("--name '{}': allowed are lower-case letters and digits, words joined "
                            "by single hyphens",
                            label.name));
  }
  auto document = read_toml_document(class_text, of_class.name + ".toml");
  if (!document) {
    return pass_on(document.error());
  }
  return LabelWriter(of_class, std::move(*document), label).whole();
}

}  // namespace coatwright
