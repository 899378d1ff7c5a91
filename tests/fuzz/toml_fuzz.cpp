// Fuzz target: every reader of recipe files gets the same bytes. None may crash, and each either
// takes them or says what is wrong with the file's name and a line. It is written for libFuzzer;
// driver.cpp feeds it where that is not at hand.
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

#include "recipe/building_job.h"
#include "recipe/glue_reader.h"
#include "recipe/label_figures.h"
#include "recipe/product_reader.h"
#include "recipe/safety_reader.h"
#include "recipe/schedule_reader.h"
#include "recipe/tables_reader.h"
#include "recipe/toml_document.h"

using namespace coatwright;

namespace {

constexpr const char* kLabel = "fuzzed.toml";

[[noreturn]] void broken(const std::string& what) {
  std::fputs((what + "\n").c_str(), stderr);
  std::abort();
}

/// A refusal names the file and a line, and is the input's fault.
template <class T>
void check(const Result<T>& result, const char* reader) {
  if (result) {
    return;
  }
  const std::string text = result.error().text();
  if (result.error().code != ErrorCode::kInputFile || text.find(kLabel) == std::string::npos ||
      text.find("line ") == std::string::npos) {
    broken(std::string(reader) + " refuses without file and line: " + text);
  }
}

/// A product that was taken stays one when it is written out again.
void check_written_again(const Product& product, std::string_view text) {
  const auto document = read_toml_document(text, kLabel);
  if (!document) {
    broken("a product was read that is no TOML");
  }
  const auto again = parse_product(toml_text(*document), kLabel);
  if (!again) {
    broken("a product is refused when it is written again: " + again.error().text());
  }
  if (again->stages.size() != product.stages.size() ||
      again->hazards.cautions != product.hazards.cautions) {
    broken("a product is another when it is written again");
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto product = parse_product(text, kLabel);
  check(product, "parse_product");
  check(parse_schedule(text, kLabel), "parse_schedule");
  check(parse_compatibility(text, kLabel), "parse_compatibility");
  check(parse_species(text, kLabel), "parse_species");
  check(parse_working_times(text, kLabel), "parse_working_times");
  check(parse_safety_texts(text, kLabel), "parse_safety_texts");
  check(parse_glues(text, kLabel), "parse_glues");
  check(read_building_job(text, kLabel), "read_building_job");
  if (product) {
    check_written_again(*product, text);
  }
  return 0;
}
