using System.Text;

namespace Coldpeel.Files.Artwork.Lettering;

/// <summary>Which parts of a line run which way: the Unicode Bidirectional Algorithm (UAX #9, https://unicode.org/reports/tr9) for one line without explicit embeddings or isolates.</summary>
/// <remarks>Rules P2, P3, W1 to W7, N0 to N2, I1, I2 and L1; L2 is for whoever orders the runs. Without rules X1 to X10 the line is one isolating run sequence.</remarks>
internal static class BidiLine
{
    private const string Opening =
        "([{\u0F3A\u0F3C\u169B\u2045\u207D\u208D\u2308\u230A\u2329\u2768\u276A\u276C\u276E\u2770\u2772\u2774\u27E6\u27E8\u27EA\u27EC\u27EE\u3008\u300A\u300C\u300E\u3010\u3014\u3016\u3018\u301A\uFF08\uFF3B\uFF5B\uFF5F\uFF62";
    private const string Closing =
        ")]}\u0F3B\u0F3D\u169C\u2046\u207E\u208E\u2309\u230B\u232A\u2769\u276B\u276D\u276F\u2771\u2773\u2775\u27E7\u27E9\u27EB\u27ED\u27EF\u3009\u300B\u300D\u300F\u3011\u3015\u3017\u3019\u301B\uFF09\uFF3D\uFF5D\uFF60\uFF63";

    /// <summary>The level of every UTF-16 code unit: even runs left to right, odd right to left.</summary>
    /// <param name="line">One line.</param>
    /// <param name="paragraph">The level of the line as a whole: 1 when its first strong letter is right-to-left.</param>
    public static byte[] Levels(string line, out int paragraph)
    {
        var runes = line.EnumerateRunes().ToArray();
        var original = Array.ConvertAll(runes, BidiClasses.Of);
        paragraph = original.FirstOrDefault(IsStrong, BidiClass.L) is BidiClass.R or BidiClass.AL ? 1 : 0;
        var side = paragraph == 1 ? BidiClass.R : BidiClass.L;

        // X9: what is not seen takes no part; it goes where its predecessor goes.
        var seen = Enumerable.Range(0, runes.Length).Where(i => original[i] != BidiClass.BN).ToArray();
        var classes = Array.ConvertAll(seen, i => original[i]);
        ResolveWeak(classes, side);
        ResolveBrackets(
            classes,
            Array.ConvertAll(seen, i => runes[i].Value),
            Array.ConvertAll(seen, i => original[i]),
            side
        );
        ResolveNeutrals(classes, side);

        var levels = new int[runes.Length];
        Array.Fill(levels, -1);
        for (var k = 0; k < seen.Length; k++)
        {
            levels[seen[k]] = (paragraph, classes[k]) switch
            {
                (0, BidiClass.R) => 1, // I1
                (0, BidiClass.AN or BidiClass.EN) => 2,
                (1, BidiClass.L or BidiClass.AN or BidiClass.EN) => 2, // I2
                var (level, _) => level,
            };
        }

        for (var i = 0; i < levels.Length; i++)
        {
            levels[i] =
                levels[i] >= 0 ? levels[i]
                : i > 0 ? levels[i - 1]
                : paragraph;
        }

        LevelSpaces(levels, original, paragraph);
        return Spread(line, runes, levels);
    }

    private static bool IsStrong(BidiClass c) => c is BidiClass.L or BidiClass.R or BidiClass.AL;

    private static void ResolveWeak(BidiClass[] classes, BidiClass side)
    {
        var (before, strong) = (side, side);
        for (var i = 0; i < classes.Length; i++)
        {
            if (classes[i] == BidiClass.NSM) // W1
            {
                classes[i] = before;
            }

            before = classes[i];
            if (IsStrong(classes[i]))
            {
                strong = classes[i];
            }
            else if (classes[i] == BidiClass.EN && strong == BidiClass.AL) // W2
            {
                classes[i] = BidiClass.AN;
            }
        }

        for (var i = 0; i < classes.Length; i++)
        {
            if (classes[i] == BidiClass.AL) // W3
            {
                classes[i] = BidiClass.R;
            }
        }

        for (var i = 1; i + 1 < classes.Length; i++) // W4
        {
            var (left, right) = (classes[i - 1], classes[i + 1]);
            var joins =
                classes[i] == BidiClass.ES
                    ? left == BidiClass.EN
                    : classes[i] == BidiClass.CS && (left is BidiClass.EN or BidiClass.AN);
            if (joins && left == right)
            {
                classes[i] = left;
            }
        }

        for (var i = 0; i < classes.Length; i++) // W5
        {
            if (classes[i] != BidiClass.ET)
            {
                continue;
            }

            var end = i;
            while (end < classes.Length && classes[end] == BidiClass.ET)
            {
                end++;
            }

            var number =
                (i > 0 && classes[i - 1] == BidiClass.EN) || (end < classes.Length && classes[end] == BidiClass.EN);
            Array.Fill(classes, number ? BidiClass.EN : BidiClass.ON, i, end - i);
            i = end - 1;
        }

        strong = side;
        for (var i = 0; i < classes.Length; i++)
        {
            if (classes[i] is BidiClass.ES or BidiClass.ET or BidiClass.CS) // W6
            {
                classes[i] = BidiClass.ON;
            }
            else if (IsStrong(classes[i]))
            {
                strong = classes[i];
            }
            else if (classes[i] == BidiClass.EN && strong == BidiClass.L) // W7
            {
                classes[i] = BidiClass.L;
            }
        }
    }

    /// <summary>N0: both brackets of a pair go with what they hold.</summary>
    private static void ResolveBrackets(BidiClass[] classes, int[] runes, BidiClass[] original, BidiClass side)
    {
        foreach (var (open, close) in Pairs(classes, runes))
        {
            var inside = classes[(open + 1)..close].Select(Direction).OfType<BidiClass>().ToHashSet();
            if (inside.Count == 0)
            {
                continue;
            }

            var before =
                classes[..open].Select(Direction).OfType<BidiClass>().Cast<BidiClass?>().LastOrDefault() ?? side;
            var found = inside.Contains(side) || before == side ? side : inside.First();
            foreach (var at in new[] { open, close })
            {
                classes[at] = found;
                for (var k = at + 1; k < classes.Length && original[k] == BidiClass.NSM; k++)
                {
                    classes[k] = found;
                }
            }
        }
    }

    /// <summary>BD16: pairs in the order of their opening brackets.</summary>
    private static List<(int Open, int Close)> Pairs(BidiClass[] classes, int[] runes)
    {
        var waiting = new List<(int At, int Kind)>();
        var pairs = new List<(int, int)>();
        for (var i = 0; i < runes.Length; i++)
        {
            if (classes[i] != BidiClass.ON || runes[i] > char.MaxValue)
            {
                continue;
            }

            // U+2329 and U+232A are canonically the same as U+3008 and U+3009.
            var c = runes[i] switch
            {
                0x2329 => '\u3008',
                0x232A => '\u3009',
                var other => (char)other,
            };
            if (Opening.IndexOf(c, StringComparison.Ordinal) is >= 0 and var opens)
            {
                if (waiting.Count == 63)
                {
                    return [];
                }

                waiting.Add((i, opens));
            }
            else if (
                Closing.IndexOf(c, StringComparison.Ordinal) is >= 0 and var closes
                && waiting.FindLastIndex(w => w.Kind == closes) is >= 0 and var match
            )
            {
                pairs.Add((waiting[match].At, i));
                waiting.RemoveRange(match, waiting.Count - match);
            }
        }

        pairs.Sort();
        return pairs;
    }

    /// <summary>N1 and N2: what is neutral goes with its neighbours when they agree, otherwise with the line.</summary>
    private static void ResolveNeutrals(BidiClass[] classes, BidiClass side)
    {
        for (var i = 0; i < classes.Length; i++)
        {
            if (Direction(classes[i]) is not null)
            {
                continue;
            }

            var end = i;
            while (end < classes.Length && Direction(classes[end]) is null)
            {
                end++;
            }

            var before = i > 0 ? Direction(classes[i - 1])!.Value : side;
            var after = end < classes.Length ? Direction(classes[end])!.Value : side;
            Array.Fill(classes, before == after ? before : side, i, end - i);
            i = end - 1;
        }
    }

    /// <summary>The side a resolved class speaks for: numbers count as right-to-left here; null for a neutral.</summary>
    private static BidiClass? Direction(BidiClass c) =>
        c switch
        {
            BidiClass.L => BidiClass.L,
            BidiClass.R or BidiClass.AN or BidiClass.EN => BidiClass.R,
            _ => null,
        };

    /// <summary>L1: tabs, and spaces before them and at the end, go with the line.</summary>
    private static void LevelSpaces(int[] levels, BidiClass[] original, int paragraph)
    {
        var trailing = true;
        for (var i = levels.Length - 1; i >= 0; i--)
        {
            trailing =
                original[i] is BidiClass.S or BidiClass.B
                || (trailing && original[i] is (BidiClass.WS or BidiClass.BN));
            levels[i] = trailing ? paragraph : levels[i];
        }
    }

    private static byte[] Spread(string line, Rune[] runes, int[] levels)
    {
        var spread = new byte[line.Length];
        var at = 0;
        for (var i = 0; i < runes.Length; i++)
        {
            // A lone half of a surrogate pair comes as U+FFFD, one unit long as it is.
            Array.Fill(spread, (byte)levels[i], at, runes[i].Utf16SequenceLength);
            at += runes[i].Utf16SequenceLength;
        }

        return spread;
    }
}
