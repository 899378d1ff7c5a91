#include "cli/label_page.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/common.h"
#include "cli/label_fields.h"
#include "cli/product_in_air.h"
#include "report/text_table.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

TemperatureAndHumidity air_of(const LabelFigures& label) {
  return label.air ? label.air->value
                   : TemperatureAndHumidity{kReferenceTemperature, kReferenceHumidity};
}

}  // namespace

std::string label_as_text(const Product& own,
                          const Product& of_class,
                          const LabelFigures& label,
                          bool replaced) {
  const std::string at_label = label.air ? label.air->text : "23C,50%";
  TextTable table({{"stage"}, {"class"}, {own.name}, {"at " + at_label}, {"from"}});
  for (const auto& [stage, drying] : own.stages) {
    const DurationRange usual = of_class.stages.at(stage).timing.whole();
    const auto there = opening_in_air(drying.timing, own.limits, air_of(label));
    const bool of_label = drying.source == "label";
    if (of_label || drying.timing.whole() != usual) {
      table.add({std::string(name_of(stage)),
                 show_range(usual),
                 show_range(drying.timing.whole()),
                 there ? show_range(*there) : "does not open",
                 of_label ? "label" : "moved"});
    }
  }
  std::string text =
      wrap(fmt::format("{} the product '{}', made of the class '{}' and of the label: "
                       "products/{}.toml in the folder recipes beside the store.",
                       replaced ? "Changed" : "Wrote",
                       own.name,
                       of_class.name,
                       own.name),
           0,
           0) +
      "\nTimes from the coat on, at 23 C and 50 % and at the label's air\n" + table.text(2) +
      "What is not listed here is the class's.\n\n";
  text += replaced
              ? wrap("Coats that are in the log keep the recipe that they were logged with.", 0, 0)
              : "";
  return text + wrap(fmt::format("Hazards and cautions are the class's. `coatwright product show "
                                 "{}` shows all of it. Label and data sheet come first.",
                                 own.name),
                     0,
                     0);
}

std::string label_as_json(const Product& own,
                          const Product& of_class,
                          const LabelFigures& label,
                          const std::filesystem::path& path) {
  nlohmann::ordered_json stages = nlohmann::ordered_json::object();
  for (const auto& [stage, drying] : own.stages) {
    const auto there = opening_in_air(drying.timing, own.limits, air_of(label));
    const DurationRange whole = drying.timing.whole();
    nlohmann::ordered_json entry = {{"low_hours", rounded(whole.low().hours(), 4)},
                                    {"high_hours", rounded(whole.high().hours(), 4)},
                                    {"source", drying.source}};
    if (there) {
      entry["at_label_low_hours"] = rounded(there->low().hours(), 4);
      entry["at_label_high_hours"] = rounded(there->high().hours(), 4);
    }
    stages[std::string(name_of(stage))] = entry;
  }
  const nlohmann::ordered_json whole = {{"name", own.name},
                                        {"made_from", of_class.name},
                                        {"file", path.string()},
                                        {"stages", stages}};
  return whole.dump(2) + "\n";
}

}  // namespace coatwright
