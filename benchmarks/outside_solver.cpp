#include "outside_solver.h"

#include <array>
#include <cstdio>
#include <fstream>
#include <memory>
#include <sstream>
#include <stdexcept>

#include <stdlib.h>

#include "stopwatch.h"

namespace coatwright {
namespace {

std::string output_of(const std::string& call) {
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(call.c_str(), "r"), pclose);
  std::string text;
  std::array<char, 4096> buffer{};
  while (pipe && fgets(buffer.data(), static_cast<int>(buffer.size()), pipe.get()) != nullptr) {
    text += buffer.data();
  }
  return text;
}

std::string quoted(const std::filesystem::path& path) {
  return "'" + path.string() + "'";
}

/// The value of a line "name = value"; the last one, since solvers print better ones below.
std::string value_of(const std::string& text, const std::string& name) {
  const std::string key = name + " = ";
  const std::size_t at = text.rfind("\n" + key);
  if (at == std::string::npos) {
    return text.starts_with(key) ? text.substr(key.size(), text.find('\n') - key.size()) : "";
  }
  const std::size_t begin = at + 1 + key.size();
  return text.substr(begin, text.find('\n', begin) - begin);
}

std::vector<Tick> ticks_of(std::string list) {
  for (char& sign : list) {
    sign = sign == '[' || sign == ']' || sign == ',' ? ' ' : sign;
  }
  std::istringstream stream(list);
  std::vector<Tick> ticks;
  for (Tick tick = 0; stream >> tick;) {
    ticks.push_back(tick);
  }
  return ticks;
}

std::string listed(const std::vector<int>& values) {
  std::string list;
  for (const int value : values) {
    list += std::to_string(value) + ",";
  }
  return list;
}

}  // namespace

OutsideAnswer ask_outside(const std::string& command,
                          const std::filesystem::path& model,
                          const std::filesystem::path& data) {
  OutsideAnswer answer;
  const double before = seconds_of_children();
  answer.text = output_of(command + " " + quoted(model) + " " + quoted(data) + " 2>&1");
  answer.seconds = seconds_of_children() - before;
  const auto says = [&](const char* words) { return answer.text.find(words) != std::string::npos; };
  answer.proven = says("==========") || says("=====UNSATISFIABLE=====");
  answer.schedule.starts = ticks_of(value_of(answer.text, "starts"));
  answer.found = !answer.schedule.starts.empty();
  if (answer.found) {
    answer.lateness = std::stoll("0" + value_of(answer.text, "lateness"));
    answer.end = std::stoi(value_of(answer.text, "end"));
  }
  return answer;
}

ScratchFolder::ScratchFolder() {
  std::string pattern = (std::filesystem::temp_directory_path() / "coatwright-XXXXXX").string();
  if (mkdtemp(pattern.data()) == nullptr) {
    throw std::runtime_error("no folder for data files can be made: " + pattern);
  }
  folder_ = pattern;
}

ScratchFolder::~ScratchFolder() {
  std::error_code ignored;  // what is left is in the folder for temporary files
  std::filesystem::remove_all(folder_, ignored);
}

std::filesystem::path ScratchFolder::write(const std::string& name, const std::string& text) const {
  std::ofstream(folder_ / name) << text;
  return folder_ / name;
}

std::string list_line(const std::string& name, const std::vector<int>& values) {
  return name + " = [" + listed(values) + "];\n";
}

std::string number_line(const std::string& name, std::int64_t value) {
  return name + " = " + std::to_string(value) + ";\n";
}

std::string matrix_line(const std::string& name,
                        const std::vector<std::vector<int>>& rows,
                        const std::string& range) {
  std::string values;
  for (const auto& row : rows) {
    values += listed(row);
  }
  return name + " = array2d(" + range + ", [" + values + "]);\n";
}

}  // namespace coatwright
