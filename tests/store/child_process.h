#pragma once

#include <array>
#include <chrono>
#include <csignal>
#include <optional>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

namespace coatwright {

/// What became of a program that was run.
struct ChildOutcome {
  bool killed = false;  ///< It ended by SIGKILL.
  int exit_code = 0;
  std::string output;  ///< What it wrote on standard output.
};

/// Runs a program with its standard output read, and errors put away.
/// @param kill_after when to send SIGKILL; none: let it end.
inline ChildOutcome run_child(const std::vector<std::string>& call,
                              std::optional<std::chrono::microseconds> kill_after = {}) {
  std::array<int, 2> pipe_ends{};
  if (pipe2(pipe_ends.data(), O_CLOEXEC) != 0) {
    throw std::runtime_error("no pipe can be made");
  }
  std::vector<char*> words;
  for (const std::string& word : call) {
    words.push_back(const_cast<char*>(word.c_str()));
  }
  words.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_adddup2(&actions, pipe_ends[1], STDOUT_FILENO);
  posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  const int failed =
      posix_spawn(&child, call.front().c_str(), &actions, nullptr, words.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  close(pipe_ends[1]);
  if (failed != 0) {
    close(pipe_ends[0]);
    throw std::runtime_error("the program cannot be started");
  }
  if (kill_after) {
    std::this_thread::sleep_for(*kill_after);
    kill(child, SIGKILL);
  }
  ChildOutcome outcome;
  std::array<char, 4096> buffer{};
  for (ssize_t size = 0; (size = read(pipe_ends[0], buffer.data(), buffer.size())) > 0;) {
    outcome.output.append(buffer.data(), static_cast<std::size_t>(size));
  }
  close(pipe_ends[0]);
  int status = 0;
  waitpid(child, &status, 0);
  outcome.killed = WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL;
  outcome.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return outcome;
}

}  // namespace coatwright
