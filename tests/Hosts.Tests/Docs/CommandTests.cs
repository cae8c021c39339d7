using System.Text.RegularExpressions;
using CliWrap;
using CliWrap.EventStream;
using Coldpeel.Hosts.Tests.Cli;

namespace Coldpeel.Hosts.Tests.Docs;

/// <summary>What the pages tell an owner to type works as it stands there.</summary>
public sealed partial class CommandTests
{
    // The page says so itself: "A job that must not be made is refused".
    private static readonly string[] MustNotBeMade = ["make demo/hi-vis/job.json --out out-vests"];

    // These go on until somebody closes them. Serve is opened and closed below; demo is the same app over orders that it first makes for half a minute.
    private static readonly string[] GoOn = ["serve", "demo"];

    public static TheoryData<string> Pages =>
        [.. Page.All.Where(p => p.Commands.Any(c => !GoOn.Contains(Verb(c)))).Select(p => p.Path)];

    [Fact]
    public void Every_verb_stands_on_a_page()
    {
        string[] verbs =
        [
            "--help",
            "make",
            "artwork",
            "sheets",
            "heat",
            "plan",
            "serve",
            "demo",
            "backup",
            "restore",
            "export",
        ];
        Assert.Empty(verbs.Except(Page.All.SelectMany(p => p.Commands).Select(Verb)));
    }

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Every_command_of_a_page_runs_in_the_order_it_stands_there(string path)
    {
        var page = Page.Of(path);
        var folder = Prepared(page);
        foreach (var command in page.Commands.Where(c => !GoOn.Contains(Verb(c))))
        {
            string[] words = [.. Words().Matches(command).Select(m => m.Value.Trim('\''))];
            // How long a search goes on changes nothing about whether the command works.
            var ran = await CommandLine.Run(folder, words is ["make", ..] ? [.. words, "--seconds", "1"] : words);
            ran.Ended(MustNotBeMade.Contains(command) ? 1 : 0);
            // "Keep the plan in force as a file".
            if (Verb(command) == "plan" && command.EndsWith("--json", StringComparison.Ordinal))
            {
                await File.WriteAllTextAsync(
                    Path.Combine(folder, "plan.json"),
                    ran.Out,
                    TestContext.Current.CancellationToken
                );
            }
        }

        if (Directory.Exists(Path.Combine(folder, "out-vests")))
        {
            Assert.Equal(
                ["findings.json"],
                Directory.GetFileSystemEntries(Path.Combine(folder, "out-vests")).Select(Path.GetFileName)
            );
        }

        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Serve_answers_with_a_page_and_closes()
    {
        var folder = Place.NewFolder();
        using var late = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        late.CancelAfter(TimeSpan.FromSeconds(300));
        using var close = new CancellationTokenSource();
        var code = -1;
        string? title = null;
        var app = CliWrap
            .Cli.Wrap("dotnet")
            .WithArguments([CommandLine.Program, "serve", "--data", folder, "--url", "http://127.0.0.1:0"])
            .WithValidation(CommandResultValidation.None);
        try
        {
            await foreach (
                var told in app.ListenAsync(
                    System.Text.Encoding.UTF8,
                    System.Text.Encoding.UTF8,
                    late.Token,
                    close.Token
                )
            )
            {
                switch (told)
                {
                    case StandardOutputCommandEvent { Text: var address } when title is null:
                        using (var browser = new HttpClient())
                        {
                            title = await browser.GetStringAsync(new Uri(address), late.Token);
                        }

                        await close.CancelAsync();
                        break;
                    case ExitedCommandEvent exited:
                        code = exited.ExitCode;
                        break;
                }
            }
        }
        catch (OperationCanceledException) when (close.IsCancellationRequested && !late.IsCancellationRequested)
        {
            // CliWrap tells a run that was asked to end in this way.
            code = 0;
        }

        Assert.Equal(0, code);
        Assert.Contains("<title>", title, StringComparison.Ordinal);
        Assert.True(File.Exists(Path.Combine(folder, "workshop.db")));
        Directory.Delete(folder, recursive: true);
    }

    // The demo lies where the page says; a page that brings files of its own brings them as blocks.
    private static string Prepared(Page page)
    {
        var folder = Place.NewFolder();
        Copy(Path.Combine(Place.Root, "demo"), Path.Combine(folder, "demo"));
        File.Copy(Path.Combine(Place.Root, "demo", "day.json"), Path.Combine(folder, "day.json"));
        // The owner's own, that the pages call so: nothing is taken from a folder that is not there.
        Directory.CreateDirectory(Path.Combine(folder, "my-workshop"));
        foreach (var block in page.Blocks("json").Where(b => b.Contains("\"pieces\"", StringComparison.Ordinal)))
        {
            File.WriteAllText(Path.Combine(folder, "pieces.json"), block);
        }

        return folder;
    }

    internal static void Copy(string from, string to)
    {
        Directory.CreateDirectory(to);
        foreach (var file in Directory.EnumerateFiles(from, "*", SearchOption.AllDirectories))
        {
            var target = Path.Combine(to, Path.GetRelativePath(from, file));
            Directory.CreateDirectory(Path.GetDirectoryName(target)!);
            File.Copy(file, target);
        }
    }

    private static string Verb(string command) => command.Split(' ')[0];

    [GeneratedRegex(@"'[^']*'|\S+")]
    private static partial Regex Words();
}
