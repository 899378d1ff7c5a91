// What only printing needs is loaded only when printing: the program is looked at from outside, by
// ldd and by the loader's own report (LD_DEBUG, ld.so(8)).
#include <filesystem>

#include <catch2/catch.hpp>

#include "print/print_tools.h"

namespace {

/// How often the loader names a library that draws.
long drawing_libraries(const std::string& report) {
  const std::string_view names[] = {"libpango", "libcairo", "coatwright_print"};
  long count = 0;
  for (const auto name : names) {
    for (auto at = report.find(name); at != std::string::npos; at = report.find(name, at + 1)) {
      ++count;
    }
  }
  return count;
}

/// As the shell takes a path with a blank in it.
std::string quoted(const std::filesystem::path& path) {
  return "'" + path.string() + "'";
}

std::string plan_call(const std::filesystem::path& program, const std::filesystem::path& folder) {
  return quoted(program) + " --store " + quoted(folder / "store.sqlite") +
         " --at-clock 2027-03-05T16:00:00Z --time-zone Etc/UTC plan --schedule hardwax-oil"
         " --species white-oak --area 1m2 --by 2027-03-20T17:00 --hours 'Mon-Sat 8:00-17:00'"
         " --in-air 20C,50%";
}

/// A folder that is removed with it.
struct Folder {
  std::filesystem::path path =
      std::filesystem::temp_directory_path() / ("coatwright_printing_" + std::to_string(getpid()));
  Folder() { std::filesystem::create_directories(path); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() { std::filesystem::remove_all(path); }
};

}  // namespace

TEST_CASE("The program loads what draws only to print a PDF", "[cli]") {
  if (print_tools::is_there("ldd")) {
    const auto linked = print_tools::run("ldd " + quoted(COATWRIGHT_BINARY));
    REQUIRE(linked.output.find("libsqlite3") != std::string::npos);
    CHECK(drawing_libraries(linked.output) == 0);
  }
  const Folder folder;
  const std::string debug = "LD_DEBUG=files ";
  const auto help = print_tools::run(debug + quoted(COATWRIGHT_BINARY) + " --help");
  REQUIRE(help.output.find("libsqlite3") != std::string::npos);
  CHECK(drawing_libraries(help.output) == 0);
  const std::string plan = debug + plan_call(COATWRIGHT_BINARY, folder.path);
  CHECK(drawing_libraries(print_tools::run(plan + " --print html").output) == 0);
  CHECK(drawing_libraries(
            print_tools::run(plan + " --print pdf --out " + quoted(folder.path / "p.pdf")).output) >
        0);
}

TEST_CASE("Without what draws only the PDF is missing", "[cli]") {
  const Folder folder;
  const auto program = folder.path / "coatwright";
  std::filesystem::copy_file(COATWRIGHT_BINARY, program);
  const std::string plan = plan_call(program, folder.path);
  const auto pdf = print_tools::run(plan + " --print pdf --out " + quoted(folder.path / "p.pdf"));
  CHECK(WEXITSTATUS(pdf.status) == 1);
  CHECK(pdf.output.find("libcoatwright_print.so") != std::string::npos);
  CHECK(!std::filesystem::exists(folder.path / "p.pdf"));
  CHECK(WEXITSTATUS(print_tools::run(plan + " --print html").status) == 0);
}

TEST_CASE("What draws is found where it is installed", "[cli]") {
  const Folder folder;
  const auto program = folder.path / "bin" / "coatwright";
  const auto module = folder.path / "lib" / "coatwright" / "libcoatwright_print.so";
  std::filesystem::create_directories(program.parent_path());
  std::filesystem::create_directories(module.parent_path());
  std::filesystem::copy_file(COATWRIGHT_BINARY, program);
  std::filesystem::copy_file(
      std::filesystem::path(COATWRIGHT_BINARY).parent_path() / module.filename(), module);
  const auto file = folder.path / "p.pdf";
  const auto pdf =
      print_tools::run(plan_call(program, folder.path) + " --print pdf --out " + file.string());
  INFO(pdf.output);
  CHECK(WEXITSTATUS(pdf.status) == 0);
  CHECK(std::filesystem::exists(file));
}
