#include "cli/product_command.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/quantity_text.h"
#include "cli/can_command.h"
#include "cli/label_command.h"
#include "cli/learned_shop.h"
#include "cli/product_classes.h"
#include "cli/product_in_air.h"
#include "cli/product_table.h"
#include "cli/product_text.h"
#include "report/line_chart.h"
#include "report/text_table.h"

namespace coatwright {
namespace {

/// The options of `product show`, as typed; empty: not given.
struct ShowOptions {
  std::string name;
  std::string in_air;
};

std::string show_methods(const Product& product) {
  std::string methods;
  for (const Method method : product.methods) {
    methods += (methods.empty() ? "" : ", ") + std::string(name_of(method));
  }
  return methods;
}

Result<ExitCode> run_list(const GlobalOptions& global) {
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  TextTable table({{"product"}, {"kind"}, {"methods"}, {"carrier"}});
  nlohmann::ordered_json whole = nlohmann::ordered_json::array();
  std::vector<Error> bad;  // a bad file must not hide the others
  for (const std::string& name : book->product_names()) {
    const auto found = book->product(name);
    if (!found) {
      bad.push_back(found.error());
      continue;
    }
    const Product& product = **found;
    table.add({name, std::string(name_of(product.kind)), show_methods(product), product.carrier});
    whole.push_back({{"name", name}, {"title", product.title}, {"kind", name_of(product.kind)}});
  }
  print_out(global.json ? whole.dump(2) + "\n" : table.text());
  for (const Error& error : bad) {
    report_error(error);
  }
  return bad.empty() ? ExitCode::kDone : ExitCode::kInput;
}

Result<std::optional<TemperatureAndHumidity>> air_of(const std::string& text) {
  if (text.empty()) {
    return std::nullopt;
  }
  const auto air = parse_air(text);
  if (!air) {
    return pass_on(air.error(), "--in-air");
  }
  return std::optional(*air);
}

/// The options of `product chart`, as typed; empty: not given.
struct ChartOptions {
  std::vector<std::string> names;
  std::string humidity = "50%";
  std::string out;
};

constexpr double kColdest = 5.0;   // C
constexpr double kWarmest = 35.0;  // C
constexpr double kChartStep = 0.5;

/// Waits for the next coat over temperature; no value where none opens.
ChartLine chart_line(const Product& product, RelativeHumidity humidity) {
  ChartLine line{product.title, {}};
  const auto timing = recoat_timing(product);
  bool in_run = false;
  for (double celsius = kColdest; timing && celsius <= kWarmest + 1e-9; celsius += kChartStep) {
    const auto opens =
        opening_in_air(*timing, product.limits, {Temperature::from_celsius(celsius), humidity});
    if (opens) {
      if (!in_run) {
        line.runs.emplace_back();
      }
      line.runs.back().emplace_back(celsius, opens->high().hours());
    }
    in_run = opens.has_value();
  }
  return line;
}

Result<ExitCode> run_chart(const ChartOptions& options, const GlobalOptions& global) {
  const auto air = parse_air("23C," + options.humidity);
  if (!air) {
    return pass_on(air.error(), "--humidity");
  }
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  std::vector<ChartLine> lines;
  for (const std::string& name : options.names) {
    const auto product = book->product(name);
    if (!product) {
      return pass_on(product.error());
    }
    lines.push_back(chart_line(**product, air->humidity));
  }
  const ChartFrame frame{
      fmt::format("When the next coat of the same may go on, at 90 % of coats and {} humidity",
                  show_humidity(air->humidity)),
      "temperature of the air, C",
      "wait",
      kColdest,
      kWarmest,
      5.0,
      {{0.25, "15 min"},
       {1.0, "1 h"},
       {4.0, "4 h"},
       {12.0, "12 h"},
       {24.0, "1 d"},
       {72.0, "3 d"},
       {168.0, "1 week"},
       {720.0, "30 d"}}};
  const std::string picture = line_chart(frame, lines);
  if (options.out.empty()) {
    print_out(picture);
  } else if (const auto written = write_output_file(options.out, picture); !written) {
    return pass_on(written.error());
  }
  return ExitCode::kDone;
}

/// The product in one air or none, or over a field of airs.
Result<std::string> page_of(const Product& product,
                            const std::string& in_air,
                            const LearnedPaces& learned,
                            const Session& session) {
  if (is_air_field(in_air)) {
    const auto field = parse_air_field(in_air);
    if (!field) {
      return pass_on(field.error(), "--in-air");
    }
    return session.json ? product_field_as_json(product, *field)
                        : product_field_as_text(product, *field, session.units);
  }
  const auto air = air_of(in_air);
  if (!air) {
    return pass_on(air.error());
  }
  return session.json ? product_as_json(product, *air, learned)
                      : product_as_text(product, *air, learned, session.units);
}

Result<ExitCode> run_show(const ShowOptions& options, const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  const auto product = book->product(options.name);
  if (!product) {
    return pass_on(product.error());
  }
  const auto learned = learn_shop(*book, *session);
  if (!learned) {
    return pass_on(learned.error());
  }
  const auto page = page_of(**product, options.in_air, learned->paces, *session);
  if (!page) {
    return pass_on(page.error());
  }
  print_out(*page);
  return ExitCode::kDone;
}

Result<ExitCode> run_check(const std::string& path, const GlobalOptions& global) {
  const auto text = read_input_file(path);
  if (!text) {
    return pass_on(text.error());
  }
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  const auto substances = book->substances();
  if (!substances) {
    return pass_on(substances.error());
  }
  const auto product = RecipeBook::read_product(*text, path, *substances);
  if (!product) {
    return pass_on(product.error());
  }
  const nlohmann::ordered_json whole = {{"file", path}, {"name", product->name}, {"ok", true}};
  print_out(global.json ? whole.dump(2) + "\n"
                        : fmt::format("{}: the product '{}' can be used ({} stages, {} recoat "
                                      "intervals over itself).\n",
                                      path,
                                      product->name,
                                      product->stages.size(),
                                      product->recoat.size()));
  return ExitCode::kDone;
}

}  // namespace

void add_product(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App& group = add_group(app, "product", "The finish materials, by generic class");
  CLI::App* list = group.add_subcommand("list", "List the products");
  list->callback([&global, &chosen] { chosen = [&global] { return run_list(global); }; });

  add_from_label(group, global, chosen);
  add_cans(group, global, chosen);
  add_product_classes(group, global, chosen);

  CLI::App* show = group.add_subcommand("show", "Show a product's times, limits and hazards");
  auto options = std::make_shared<ShowOptions>();
  show->add_option("name", options->name, "The product")->required()->type_name("");
  show->add_option("--in-air",
                   options->in_air,
                   "Show the times in this air too, such as 14C,62%; a table for 5C..35C,20%..90%")
      ->type_name("AIR");
  show->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_show(*options, global); }; });

  CLI::App* chart =
      group.add_subcommand("chart", "Draw the wait for the next coat over temperature, as SVG");
  auto drawing = std::make_shared<ChartOptions>();
  chart->add_option("name", drawing->names, "The products")->required()->type_name("");
  chart->add_option("--humidity", drawing->humidity, "Of the air [50%]")->type_name("HUMIDITY");
  chart->add_option("--out", drawing->out, "Write there instead of on standard output")
      ->type_name("FILE");
  chart->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_chart(*drawing, global); }; });

  CLI::App* check = group.add_subcommand("check", "Check a file with a product of your own");
  auto path = std::make_shared<std::string>();
  check->add_option("file", *path, "A product's TOML file")->required()->type_name("FILE");
  check->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_check(*path, global); }; });
}

}  // namespace coatwright
