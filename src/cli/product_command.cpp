#include "cli/product_command.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/quantity_text.h"
#include "cli/product_text.h"
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
  for (const std::string& name : book->product_names()) {
    const auto found = book->product(name);
    if (!found) {
      return pass_on(found.error());
    }
    const Product& product = **found;
    table.add({name, std::string(name_of(product.kind)), show_methods(product), product.carrier});
    whole.push_back({{"name", name}, {"title", product.title}, {"kind", name_of(product.kind)}});
  }
  print_out(global.json ? whole.dump(2) + "\n" : table.text());
  return ExitCode::kDone;
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

Result<ExitCode> run_show(const ShowOptions& options, const GlobalOptions& global) {
  const auto air = air_of(options.in_air);
  if (!air) {
    return pass_on(air.error());
  }
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
  print_out(session->json ? product_as_json(**product, *air)
                          : product_as_text(**product, *air, session->units));
  return ExitCode::kDone;
}

Result<ExitCode> run_check(const std::string& path, const GlobalOptions& global) {
  const auto text = read_input_file(path);
  if (!text) {
    return pass_on(text.error());
  }
  const auto product = RecipeBook::read_product(*text, path);
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

  CLI::App* show = group.add_subcommand("show", "Show a product's times, limits and hazards");
  auto options = std::make_shared<ShowOptions>();
  show->add_option("name", options->name, "The product")->required()->type_name("");
  show->add_option("--in-air", options->in_air, "Show the times in this air too, such as 14C,62%")
      ->type_name("AIR");
  show->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_show(*options, global); }; });

  CLI::App* check = group.add_subcommand("check", "Check a file with a product of your own");
  auto path = std::make_shared<std::string>();
  check->add_option("file", *path, "A product's TOML file")->required()->type_name("FILE");
  check->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_check(*path, global); }; });
}

}  // namespace coatwright
