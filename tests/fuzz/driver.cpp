// Feeds the fuzz target with the repository's own recipes, mutated. The same seed gives the same
// inputs, so that what breaks it can be looked at:
//     fuzz_toml [--runs N] [--seed N] [--keep FILE]
// --keep writes each input to FILE before it is tried, so that the file holds the one that broke
// it.
#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

namespace fs = std::filesystem;

struct Options {
  std::uint64_t runs = 2000;
  std::uint64_t seed = 1;
  std::string keep;
};

/// Mutates texts; everything is drawn from one generator.
class Mutator {
 public:
  explicit Mutator(std::uint64_t seed) : random_(seed) {}

  /// @return a number below `limit`. The remainder is good enough here and the same everywhere,
  /// which the library's distributions are not.
  std::size_t below(std::size_t limit) {
    return static_cast<std::size_t>(random_() % std::max<std::size_t>(1, limit));
  }

  std::string mutated(std::string text) {
    for (std::size_t left = 1 + below(4); left > 0; --left) {
      mutate(text);
    }
    return text;
  }

 private:
  void mutate(std::string& text) {
    switch (below(9)) {
      case 0:
        return flip_bytes(text);
      case 1:
      case 2:
        return change_lines(text);
      case 3:
      case 4:
        return replace_number(text);
      case 5:
        return rename_key(text);
      case 6:
        return replace_value(text);
      case 7:
        return insert_word(text);
      default:
        text.resize(below(text.size() + 1));
    }
  }

  void flip_bytes(std::string& text) {
    for (std::size_t left = 1 + below(4); left > 0 && !text.empty(); --left) {
      text[below(text.size())] = static_cast<char>(below(256));
    }
  }

  static std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines(1);
    for (const char c : text) {
      if (c == '\n') {
        lines.emplace_back();
      } else {
        lines.back() += c;
      }
    }
    return lines;
  }

  /// Doubles, deletes or swaps lines.
  void change_lines(std::string& text) {
    std::vector<std::string> lines = lines_of(text);
    const std::size_t first = below(lines.size());
    const std::size_t second = below(lines.size());
    switch (below(3)) {
      case 0:
        lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(first), lines[second]);
        break;
      case 1:
        lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(first));
        break;
      default:
        std::swap(lines[first], lines[second]);
    }
    text.clear();
    for (const std::string& line : lines) {
      text += line + "\n";
    }
  }

  void replace_number(std::string& text) {
    static const std::vector<std::string> kExtremes = {"0",
                                                       "-1",
                                                       "1e308",
                                                       "-1e308",
                                                       "1e-308",
                                                       "nan",
                                                       "inf",
                                                       "-inf",
                                                       "99999999",
                                                       "0.0",
                                                       "1",
                                                       "5000",
                                                       "9223372036854775807",
                                                       "-9223372036854775808",
                                                       "0x7f",
                                                       "1e-9",
                                                       "2.5",
                                                       "3",
                                                       "4999.999999"};
    replace_run(text, "0123456789.", kExtremes[below(kExtremes.size())]);
  }

  /// Replaces one run of these letters, the next from a place in the text on.
  void replace_run(std::string& text, const char* letters, const std::string& with) {
    const std::size_t begin = text.find_first_of(letters, below(text.size() + 1));
    if (begin == std::string::npos) {
      return;
    }
    const std::size_t end = std::min(text.find_first_not_of(letters, begin), text.size());
    text.replace(begin, end - begin, with);
  }

  void rename_key(std::string& text) {
    static const std::vector<std::string> kNames = {
        "name",  "source",  "note",       "after",     "condition", "low_hours", "high_hours",
        "stage", "recoat",  "mechanism",  "solvent",   "part",      "pair",      "format",
        "",      "\"a b\"", "opens_with", "made_from", "layer",     "interval",  "limits"};
    const std::size_t equals = text.find(" = ", below(text.size() + 1));
    if (equals == std::string::npos) {
      return;
    }
    const std::size_t line = text.rfind('\n', equals) + 1;
    text.replace(line, equals - line, kNames[below(kNames.size())]);
  }

  void replace_value(std::string& text) {
    static const std::vector<std::string> kValues = {"\"\"",
                                                     "\" \"",
                                                     "true",
                                                     "[]",
                                                     "{}",
                                                     "[[]]",
                                                     "[1, \"a\"]",
                                                     "2027-03-05",
                                                     "12:00:00",
                                                     "\"never\"",
                                                     "\"recoat\"",
                                                     "\"dust-free\"",
                                                     "\"evaporation\"",
                                                     "\"elapsed\"",
                                                     "{ celsius = 1 }",
                                                     "\"\\u00e9\"",
                                                     "[\"spray\", \"spray\"]",
                                                     "'''\n\n'''"};
    const std::size_t equals = text.find(" = ", below(text.size() + 1));
    if (equals == std::string::npos) {
      return;
    }
    const std::size_t end = std::min(text.find('\n', equals), text.size());
    text.replace(equals + 3, end - equals - 3, kValues[below(kValues.size())]);
  }

  void insert_word(std::string& text) {
    static const std::vector<std::string> kWords = {
        "[",       "]",           "[[",          "]]",
        "{",       "}",           "=",           "\"",
        "'''",     "\"\"\"",      "#",           ".",
        "\\",      "\0x",         "\xff",        "\xef\xbb\xbf",
        "\r\n",    "[limits]\n",  "[[stage]]\n", "[[recoat]]\n",
        "[mix]\n", "[storage]\n", "a.b.c = 1\n", "[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[["};
    text.insert(below(text.size() + 1), kWords[below(kWords.size())]);
  }

  std::mt19937_64 random_;
};

std::vector<std::string> recipes() {
  std::vector<fs::path> paths;
  for (const char* folder : {"recipes", "demo"}) {  // demo/ holds part lists
    for (const auto& entry :
         fs::recursive_directory_iterator(fs::path(COATWRIGHT_SOURCE_DIR) / folder)) {
      if (entry.path().extension() == ".toml") {
        paths.push_back(entry.path());
      }
    }
  }
  std::sort(paths.begin(), paths.end());
  std::vector<std::string> texts;
  for (const fs::path& path : paths) {
    std::ifstream file(path, std::ios::binary);
    texts.emplace_back(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
  }
  return texts;
}

Options options_from(int count, char** words) {
  Options options;
  for (int i = 1; i + 1 < count; i += 2) {
    const std::string option = words[i];
    if (option == "--keep") {
      options.keep = words[i + 1];
    } else if (option == "--seed" || option == "--runs") {
      (option == "--seed" ? options.seed : options.runs) = std::strtoull(words[i + 1], nullptr, 10);
    }
  }
  return options;
}

void feed(const std::string& text, const Options& options) {
  if (!options.keep.empty()) {
    std::ofstream(options.keep, std::ios::binary) << text;
  }
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(text.data()), text.size());
}

}  // namespace

int main(int count, char** words) {
  const Options options = options_from(count, words);
  const std::vector<std::string> texts = recipes();
  if (texts.empty()) {
    std::fputs("no recipes were found\n", stderr);
    return 1;
  }
  Mutator mutator(options.seed);
  for (const std::string& text : texts) {
    feed(text, options);
  }
  for (std::uint64_t run = 0; run < options.runs; ++run) {
    feed(mutator.mutated(texts[mutator.below(texts.size())]), options);
  }
  std::printf("%llu mutations of %zu recipes from seed %llu\n",
              static_cast<unsigned long long>(options.runs),
              texts.size(),
              static_cast<unsigned long long>(options.seed));
  return 0;
}
