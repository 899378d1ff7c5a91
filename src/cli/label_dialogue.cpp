#include "cli/label_dialogue.h"

#include <cstdio>
#include <iostream>

#include <fmt/format.h>

#include "cli/label_fields.h"

namespace coatwright {
namespace {

void say(const std::string& text) {
  std::fputs(text.c_str(), stderr);
  std::fflush(stderr);
}

/// @return an answer without the blanks around it.
Result<std::string> answer_to(const std::string& question) {
  say(question);
  std::string line;
  if (!std::getline(std::cin, line)) {
    say("\n");
    return fail(ErrorCode::kUsage, "the answers ended; nothing was written");
  }
  const auto first = line.find_first_not_of(" \t\r");
  if (first == std::string::npos) {
    return std::string();
  }
  return line.substr(first, line.find_last_not_of(" \t\r") - first + 1);
}

Result<void> ask_name(LabelFigures& label) {
  while (label.name.empty()) {
    const auto name = answer_to("Name of the new product, such as shop-varnish: ");
    if (!name) {
      return pass_on(name.error());
    }
    label.name = *name;
  }
  return {};
}

Result<void> ask_field(const LabelField& field, const std::string& hint, LabelFigures& label) {
  while (true) {
    const auto answer = answer_to(fmt::format("{} [{}]: ", field.about, hint));
    if (!answer) {
      return pass_on(answer.error());
    }
    if (answer->empty()) {
      return {};
    }
    const auto taken = field.take(*answer, label);
    if (taken) {
      return {};
    }
    say(taken.error().text() + "\n");
  }
}

}  // namespace

Result<LabelFigures> ask_for_label(const Product& of_class, LabelFigures label) {
  say(
      fmt::format("From the label of a can of the class {}. In brackets stands what is taken where "
                  "you leave a line empty.\n",
                  of_class.title));
  if (const auto done = ask_name(label); !done) {
    return pass_on(done.error());
  }
  for (const LabelField& field : label_fields()) {
    const std::string hint = field.hint(of_class);
    if (hint.empty()) {
      continue;  // the class has no such figure
    }
    if (const auto done = ask_field(field, hint, label); !done) {
      return pass_on(done.error());
    }
  }
  return label;
}

}  // namespace coatwright
