using System.Globalization;
using System.Text;
using CliWrap;
using CliWrap.Buffered;
using Coldpeel.Craft.Measures;
using Coldpeel.Files.Artwork.Lettering;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>Which way text runs, held against GNU FriBidi and against the Unicode data that Python brings.</summary>
public sealed class LetteringBidiTests
{
    // Latin, Hebrew, Arabic, both kinds of digits, marks, signs between numbers, brackets, spaces.
    private const string Alphabet = "abXאבגدرس12٣٤۵+-#%€.,:/ ()[]!?\u0301\u05B8\u064E&\u00A0";

    private static readonly string[] Bearing = ["R", "AL", "AN", "EN"];

    [Fact]
    public async Task Levels_agree_with_GNU_FriBidi_on_three_thousand_lines()
    {
        var fribidi = Place.Tool("fribidi");
        var chance = new Rng(20261125);
        string Line() =>
            string.Concat(
                Enumerable.Range(0, 1 + chance.Below(14)).Select(_ => Alphabet[chance.Below(Alphabet.Length)])
            );
        // FriBidi 1.0.8 leaves a pair alone when another kind of bracket stands unpaired inside it, which BD16 does not: such lines are left out.
        var lines = Enumerable
            .Range(0, 20_000)
            .Select(_ => Line().Trim(' ', '\u00A0'))
            .Where(l => l.Length > 0 && Balanced(l))
            .Take(3000)
            .ToArray();
        var run = await Cli.Wrap(fribidi)
            .WithArguments(["--charset", "UTF-8", "--levels", "--novisual", "--nopad", "--nobreak", "--width", "10000"])
            .WithStandardInputPipe(PipeSource.FromString(string.Join("\n", lines) + "\n"))
            .ExecuteBufferedAsync(Encoding.UTF8, TestContext.Current.CancellationToken);
        var said = run.StandardOutput.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(lines.Length, said.Length);
        for (var i = 0; i < lines.Length; i++)
        {
            var theirs = said[i]
                .Split(' ', StringSplitOptions.RemoveEmptyEntries)
                .Select(n => byte.Parse(n, CultureInfo.InvariantCulture));
            Assert.True(
                theirs.SequenceEqual(BidiLine.Levels(lines[i], out _)),
                $"{string.Join(' ', lines[i].Select(c => $"{(int)c:X4}"))}: theirs {said[i]}, ours {string.Join(' ', BidiLine.Levels(lines[i], out _))}"
            );
        }
    }

    private static bool Balanced(string line)
    {
        var open = new Stack<char>();
        return line.Where(c => "()[]".Contains(c, StringComparison.Ordinal))
                .All(c => c is '(' or '[' ? Opened(c) : open.TryPop(out var o) && o == (c == ')' ? '(' : '['))
            && open.Count == 0;

        bool Opened(char c)
        {
            open.Push(c);
            return true;
        }
    }

    [Fact]
    public async Task Letters_numbers_and_signs_have_the_classes_of_the_Unicode_character_database()
    {
        // Every character up to the Arabic blocks, and above them all that the database or we take for right-to-left or for a number.
        const string program = """
            import unicodedata as u
            for c in range(0x20000):
                if u.category(chr(c)) not in ("Cn", "Cs", "Co"):
                    print(c, u.bidirectional(chr(c)))
            """;
        var run = await Cli.Wrap(Place.Tool("python3"))
            .WithArguments(["-c", program])
            .ExecuteBufferedAsync(TestContext.Current.CancellationToken);
        var wrong = new List<string>();
        var count = 0;
        foreach (var line in run.StandardOutput.Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            var (code, theirs) = (int.Parse(line.Split(' ')[0], CultureInfo.InvariantCulture), line.Split(' ')[1]);
            var ours = BidiClasses.Of(new Rune(code)).ToString();
            var bearing = code < 0x0900 || Bearing.Contains(ours) || Bearing.Contains(theirs);
            count += bearing ? 1 : 0;
            if (bearing && ours != theirs && !(code is 0x202A or 0x202B or 0x202C or 0x202D or 0x202E))
            {
                wrong.Add($"{code:X4} is {theirs}, not {ours}");
            }
        }

        Assert.True(count > 4_000, $"Only {count} characters were compared.");
        Assert.True(wrong.Count == 0, string.Join("; ", wrong.Take(80)));
    }

    [Theory]
    // UAX #9 keeps numbers left to right within right-to-left text: the 12 of "dana 12 b" in Hebrew stands between its words, not turned round.
    [InlineData("דנה 12 ב", "6..8 4..6 0..4")]
    [InlineData("No. 7 דנה", "0..6 6..9")]
    public void Numbers_stay_left_to_right_and_nothing_is_turned_round_in_memory(string line, string runs)
    {
        var cut = TextRuns.InSight(line).Select(r => $"{r.Start}..{r.Start + r.Length}");
        Assert.Equal(runs, string.Join(' ', cut));
    }
}
