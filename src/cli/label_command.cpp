#include "cli/label_command.h"

#include <algorithm>
#include <map>
#include <memory>
#include <system_error>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <unistd.h>

#include "cli/label_dialogue.h"
#include "cli/label_fields.h"
#include "cli/label_page.h"

namespace coatwright {
namespace {

/// The options, as typed; empty: not given.
struct FromLabelOptions {
  std::string of_class;
  std::string name;
  std::string title;
  std::map<std::string, std::string> figures;  ///< By option.
  bool ask = false;
  bool force = false;
};

std::string figure_options() {
  std::string options;
  for (const LabelField& field : label_fields()) {
    options += (options.empty() ? "" : ", ") + field.option;
  }
  return options;
}

/// The figures that were given as options.
Result<LabelFigures> figures_from(const FromLabelOptions& options) {
  LabelFigures label;
  label.name = options.name;
  label.title = options.title;
  label.far_off = options.force;
  for (const LabelField& field : label_fields()) {
    const std::string& text = options.figures.at(field.option);
    if (text.empty()) {
      continue;
    }
    if (const auto taken = field.take(text, label); !taken) {
      return pass_on(taken.error(), field.option);
    }
  }
  return label;
}

/// From the options, or by asking where none was given and there is someone to be asked.
Result<LabelFigures> label_from(const FromLabelOptions& options, const Product& of_class) {
  auto label = figures_from(options);
  if (!label) {
    return label;
  }
  if (options.ask || (label->empty() && isatty(STDIN_FILENO) == 1)) {
    return ask_for_label(of_class, std::move(*label));
  }
  if (label->name.empty()) {
    return fail(ErrorCode::kUsage, "--name is required: what plans are to call the product");
  }
  if (label->empty()) {
    return fail(ErrorCode::kUsage,
                fmt::format("no figure of the label was given; there are {}; or --ask to be asked",
                            figure_options()));
  }
  return label;
}

Result<void> check_name_free(const RecipeBook& book,
                             const std::string& name,
                             const FromLabelOptions& options) {
  const std::vector<std::string> names = book.product_names();
  if (std::find(names.begin(), names.end(), name) == names.end()) {
    return {};
  }
  if (!book.is_own_product(name)) {
    return fail(ErrorCode::kUsage,
                fmt::format("'{}' is a class of the program's own: choose another name", name));
  }
  if (name == options.of_class) {
    return fail(ErrorCode::kUsage,
                fmt::format("'{}' cannot be made from itself: name its class", name));
  }
  if (!options.force) {
    return fail(ErrorCode::kUsage,
                fmt::format("there is a product '{}' already: choose another name, or replace it "
                            "with --force",
                            name));
  }
  return {};
}

/// Writes the file whole or not at all. @return where.
Result<std::filesystem::path> write_product(const RecipeBook& book,
                                            const std::string& name,
                                            const std::string& text) {
  const std::filesystem::path folder = *book.own_folder() / "products";
  std::error_code failed;
  std::filesystem::create_directories(folder, failed);
  if (failed) {
    return fail(
        ErrorCode::kUsage,
        fmt::format("the folder '{}' cannot be made: {}", folder.string(), failed.message()));
  }
  const std::filesystem::path path = folder / (name + ".toml");
  if (const auto written = write_output_file(path.string(), text); !written) {
    return pass_on(written.error());
  }
  return path;
}

Result<ExitCode> run_from_label(const FromLabelOptions& options, const GlobalOptions& global) {
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  const auto of_class = book->product(options.of_class);
  if (!of_class) {
    return pass_on(of_class.error());
  }
  const auto label = label_from(options, **of_class);
  if (!label) {
    return pass_on(label.error());
  }
  if (const auto free = check_name_free(*book, label->name, options); !free) {
    return pass_on(free.error());
  }
  const auto class_text = book->product_text(options.of_class);
  if (!class_text) {
    return pass_on(class_text.error());
  }
  const auto text = product_text_from_label(**of_class, *class_text, *label);
  if (!text) {
    return pass_on(text.error());
  }
  const auto own = RecipeBook::read_product(*text, label->name + ".toml");
  if (!own) {
    return pass_on(own.error());
  }
  const bool replaced = book->is_own_product(label->name);
  const auto path = write_product(*book, label->name, *text);
  if (!path) {
    return pass_on(path.error());
  }
  print_out(global.json ? label_as_json(*own, **of_class, *label, *path)
                        : label_as_text(*own, **of_class, *label, replaced));
  return ExitCode::kDone;
}

}  // namespace

void add_from_label(CLI::App& group, const GlobalOptions& global, Work& chosen) {
  CLI::App* command =
      group.add_subcommand("from-label", "Make a product of your own from the label in your hand");
  auto options = std::make_shared<FromLabelOptions>();
  command->add_option("class", options->of_class, "The class that it belongs to")
      ->required()
      ->type_name("");
  command->add_option("--name", options->name, "What plans call it: shop-varnish")
      ->type_name("NAME");
  command->add_option("--title", options->title, "How pages print it")->type_name("TEXT");
  for (const LabelField& field : label_fields()) {
    command->add_option(field.option, options->figures[field.option], field.about)
        ->type_name(field.type);
  }
  command->add_flag("--ask", options->ask, "Be asked for the figures, one line each");
  command->add_flag("--force", options->force, "Replace an own product; take figures far off");
  command->callback([=, &global, &chosen] {
    chosen = [=, &global] { return run_from_label(*options, global); };
  });
}

}  // namespace coatwright
