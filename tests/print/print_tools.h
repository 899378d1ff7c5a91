#pragma once

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>
#include <string>

#include <catch2/catch.hpp>
#include <sys/wait.h>
#include <unistd.h>

/// The programs that check a PDF, which are no part of the project: qpdf, and those of poppler.
/// Where one is absent its checks are skipped with a message; scripts/setup installs them.
namespace print_tools {

inline bool is_there(const std::string& tool) {
  const std::string call = "command -v " + tool + " >/dev/null 2>&1";
  const bool there = std::system(call.c_str()) == 0;  // NOLINT(concurrency-mt-unsafe)
  if (!there) {
    WARN("skipped: " << tool << " is not installed");
  }
  return there;
}

/// A file with some bytes that is removed with it.
class TemporaryFile {
 public:
  TemporaryFile(const std::string& bytes, const std::string& ending)
      : path_(std::filesystem::temp_directory_path() /
              ("coatwright_print_" + std::to_string(getpid()) + ending)) {
    std::ofstream(path_, std::ios::binary) << bytes;
  }
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;
  ~TemporaryFile() { std::filesystem::remove(path_); }

  [[nodiscard]] std::string path() const { return path_.string(); }

 private:
  std::filesystem::path path_;
};

struct Outcome {
  int status = 0;
  std::string output;  ///< Standard output and errors.
};

inline Outcome run(const std::string& call) {
  Outcome outcome;
  FILE* pipe = popen((call + " 2>&1").c_str(), "r");
  REQUIRE(pipe != nullptr);
  for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe)) {
    outcome.output += static_cast<char>(c);
  }
  outcome.status = pclose(pipe);
  return outcome;
}

/// Runs "TOOL ARGUMENTS FILE REST" on some bytes; nothing where the tool is absent.
inline std::optional<Outcome> checked(const std::string& tool,
                                      const std::string& arguments,
                                      const std::string& bytes,
                                      const std::string& rest = "") {
  if (!is_there(tool)) {
    return std::nullopt;
  }
  const TemporaryFile file(bytes, ".pdf");
  std::string call = tool + " " + arguments + " " + file.path() + " " + rest;
  return run(call);
}

}  // namespace print_tools
