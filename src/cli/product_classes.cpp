#include "cli/product_classes.h"

#include <array>
#include <cmath>
#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "report/text_table.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

/// How a figure is known: a letter for the table and the words for it.
struct Grade {
  std::string_view source;  ///< Empty: any other source, which is a publication.
  std::string_view letter;
  std::string_view words;
};
constexpr std::array<Grade, 6> kGrades = {
    {{"", "P", "published: a standard, a book, a manual, an authority"},
     {"label", "L", "the label in the maker's hand"},
     {"trade_finishing_web", "T", "read in trade pages"},
     {"common-practice", "C", "common practice"},
     {"from-memory", "M", "from memory, not seen while writing"},
     {"judgement", "J", "judgement of this project"}}};

const Grade& grade_of(std::string_view source) {
  for (const Grade& grade : kGrades) {
    if (!grade.source.empty() && grade.source == source) {
      return grade;
    }
  }
  return kGrades.front();
}

/// A figure of the table; no figure where the class has none.
struct Window {
  std::string heading;
  std::optional<DurationRange> hours;
  std::string source;
};

/// In a unit in which the figures are short: "15-45 min", "4-24 h", "14-30 d".
std::string show_window(const DurationRange& range) {
  struct Unit {
    double hours;
    std::string_view name;
    double from;  ///< Hours of the high end from which it is used.
  };
  constexpr std::array<Unit, 3> kUnits = {
      {{24.0, "d", 72.0}, {1.0, "h", 1.5}, {1.0 / 60.0, "min", 0.0}}};
  for (const Unit& unit : kUnits) {
    const bool is_short = range.high().hours() < unit.from && range.low().hours() < unit.hours;
    const bool begins_short = range.low().hours() < unit.hours / 2.0;  // "8-72 h", not "0.333-3 d"
    if (is_short || (begins_short && unit.from > 0.0)) {
      continue;
    }
    const std::string low = fmt::format("{:.3g}", range.low().hours() / unit.hours);
    const std::string high = fmt::format("{:.3g}", range.high().hours() / unit.hours);
    return low == high ? fmt::format("{} {}", low, unit.name)
                       : fmt::format("{}-{} {}", low, high, unit.name);
  }
  return "";
}

std::string cell_of(const Window& window) {
  return window.hours
             ? fmt::format("{} {}", show_window(*window.hours), grade_of(window.source).letter)
             : "-";
}

Window stage_window(const Product& product, Stage stage, const std::string& heading) {
  const DryingStage* drying = product.stage(stage);
  return drying == nullptr ? Window{heading, std::nullopt, ""}
                           : Window{heading, drying->timing.whole(), drying->source};
}

/// The recoat stage, or for a product without one the opening of its first window.
Window recoat_window(const Product& product) {
  Window window = stage_window(product, Stage::kRecoat, "recoat");
  for (const RecoatInterval& interval : product.recoat) {
    if (!window.hours && interval.condition != RecoatCondition::kNever) {
      window = {window.heading, interval.opens.whole(), interval.source};
    }
  }
  return window;
}

Window closing_window(const Product& product) {
  for (const RecoatInterval& interval : product.recoat) {
    if (interval.condition == RecoatCondition::kNone && interval.closes) {
      return {"unsanded until", interval.closes->whole(), interval.source};
    }
  }
  return {"unsanded until", std::nullopt, ""};
}

Window wipe_window(const Product& product) {
  if (!product.wipe_off) {
    return {"wipe off", std::nullopt, ""};
  }
  return {"wipe off",
          DurationRange(product.wipe_off->opens, product.wipe_off->closes),
          product.wipe_off->source};
}

Window pot_life_window(const Product& product) {
  if (!product.mix || !product.mix->pot_life) {
    return {"pot life", std::nullopt, ""};
  }
  return {"pot life", product.mix->pot_life, product.mix->pot_life_source};
}

std::vector<Window> windows_of(const Product& product) {
  return {stage_window(product, Stage::kDustFree, "dust-free"),
          recoat_window(product),
          closing_window(product),
          stage_window(product, Stage::kSandable, "sandable"),
          stage_window(product, Stage::kHandle, "handle"),
          stage_window(product, Stage::kFullCure, "full cure"),
          wipe_window(product),
          pot_life_window(product)};
}

std::string legend() {
  std::string words;
  for (const Grade& grade : kGrades) {
    words += fmt::format("{}{} {}", words.empty() ? "" : "; ", grade.letter, grade.words);
  }
  return words + ".";
}

constexpr std::string_view kWhat =
    "Times from the coat on at 23 C and 50 % humidity, from the 10th to the 90th of a hundred "
    "coats; a closing is the time until which the next coat bonds without sanding. Label and data "
    "sheet come first. The letter says how the figure is known:";

std::string as_text(const std::vector<const Product*>& products) {
  std::string text = wrap(std::string(kWhat) + " " + legend(), 0, 0);
  for (const Product* product : products) {
    TextTable table({{""}, {""}});
    for (const Window& window : windows_of(*product)) {
      if (window.hours) {
        table.add({window.heading, cell_of(window)});
      }
    }
    const std::string rows = table.text(2);
    text += fmt::format(
        "\n{}: {}\n{}", product->name, product->title, rows.substr(rows.find('\n') + 1));
  }
  return text;
}

std::string as_markdown(const std::vector<const Product*>& products) {
  std::string text =
      "# The classes of finish materials\n\n"
      "Printed by `coatwright product table --markdown`; not to be edited by hand.\n\n" +
      wrap(std::string(kWhat), 0, 0) + "\n";
  for (const Grade& grade : kGrades) {
    text += fmt::format("- **{}**: {}\n", grade.letter, grade.words);
  }
  std::string heading = "\n| class |";
  std::string line = "| --- |";
  std::string rows;
  for (const Product* product : products) {
    rows += fmt::format("| {}<br>`{}` |", product->title, product->name);
    for (const Window& window : windows_of(*product)) {
      rows += fmt::format(" {} |", cell_of(window));
      if (product == products.front()) {
        heading += fmt::format(" {} |", window.heading);
        line += " --- |";
      }
    }
    rows += "\n";
  }
  return text + heading + "\n" + line + "\n" + rows;
}

std::string as_json(const std::vector<const Product*>& products) {
  nlohmann::ordered_json whole = nlohmann::ordered_json::array();
  for (const Product* product : products) {
    nlohmann::ordered_json entry = {
        {"name", product->name}, {"title", product->title}, {"made_from", product->made_from}};
    for (const Window& window : windows_of(*product)) {
      entry["windows"][window.heading] =
          window.hours
              ? nlohmann::ordered_json{{"low_hours", rounded(window.hours->low().hours(), 4)},
                                       {"high_hours", rounded(window.hours->high().hours(), 4)},
                                       {"source", window.source},
                                       {"known", grade_of(window.source).words}}
              : nlohmann::ordered_json();
    }
    whole.push_back(std::move(entry));
  }
  return whole.dump(2) + "\n";
}

Result<ExitCode> run_table(bool markdown, const GlobalOptions& global) {
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  std::vector<const Product*> products;
  std::vector<Error> bad;
  for (const std::string& name : book->product_names()) {
    if (const auto product = book->product(name)) {
      products.push_back(*product);
    } else {
      bad.push_back(product.error());
    }
  }
  print_out(global.json ? as_json(products) : markdown ? as_markdown(products) : as_text(products));
  for (const Error& error : bad) {
    report_error(error);
  }
  return bad.empty() ? ExitCode::kDone : ExitCode::kInput;
}

}  // namespace

void add_product_classes(CLI::App& group, const GlobalOptions& global, Work& chosen) {
  CLI::App* command =
      group.add_subcommand("table", "Print every product's windows, and how each is known");
  auto markdown = std::make_shared<bool>(false);
  command->add_flag("--markdown", *markdown, "As a page in Markdown");
  command->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_table(*markdown, global); }; });
}

}  // namespace coatwright
