using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Coldpeel.Desk.Shelf.Book;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Microsoft.AspNetCore.Http;

namespace Coldpeel.Web.Shelf.Book;

/// <summary>The fields of a form of the workshop file: what stands, what was typed, and what is wrong with it; lengths in the reader's unit.</summary>
internal sealed class BookFields(Func<string, JsonNode?> stands)
{
    private const string WasPrefix = "was:";

    private static CultureInfo Culture => CultureInfo.CurrentUICulture;

    private readonly Dictionary<string, string> _typed = [];
    private readonly Dictionary<string, string> _was = [];
    private readonly Dictionary<string, string> _faults = [];

    /// <summary>What is wrong and stands at no field of the form.</summary>
    public ImmutableArray<string> Elsewhere { get; private set; } = [];

    /// <summary>What was typed and has no place any more: its row is gone, or the form was of something else.</summary>
    public ImmutableArray<LeftOut> LeftOut { get; private set; } = [];

    /// <summary>Whether somebody else has changed what the form shows.</summary>
    public bool Moved { get; private set; }

    /// <summary>What a form sent, over what stands now.</summary>
    public static BookFields Read(IFormCollection form, Func<string, JsonNode?> stands)
    {
        var fields = new BookFields(stands);
        var names = form.Keys.Select(k =>
            k.StartsWith(WasPrefix, StringComparison.Ordinal) ? k[WasPrefix.Length..] : k
        );
        foreach (var name in names.Distinct(StringComparer.Ordinal).Where(n => n.StartsWith('/')))
        {
            // A tick that was taken away is not sent at all: only that it was shown.
            if (FormFields.Limits(name) is { } limits && (limits.Kind == FieldKind.Flag || form.ContainsKey(name)))
            {
                fields._typed[name] = form[name].ToString().Trim();
                fields._was[name] = form[WasPrefix + name].ToString();
            }
        }

        return fields;
    }

    /// <summary>The id of a field in its page.</summary>
    public static string Id(string field) => field[1..].Replace('/', '-').Replace(' ', '-');

    /// <summary>The name of the field that holds what stood when the form was opened.</summary>
    public static string WasName(string field) => WasPrefix + field;

    /// <summary>What the form filled in; a field that was not touched keeps what stands, to the last digit.</summary>
    public IReadOnlyDictionary<string, JsonNode?> Values() =>
        _typed.ToDictionary(
            t => t.Key,
            t => t.Value == _was[t.Key] ? stands(t.Key)?.DeepClone() : Value(t.Key, t.Value)
        );

    /// <summary>What stands in the field.</summary>
    public string Shown(string field) =>
        _typed.TryGetValue(field, out var typed) && !(Moved && typed == _was[field]) ? typed : Stands(field);

    /// <summary>What stands in the workshop file, as it is shown.</summary>
    public string Stands(string field) => Text(field, stands(field));

    /// <summary>The number in the field, in the unit of the file; null where there is none.</summary>
    public double? InFile(string field) =>
        (_typed.TryGetValue(field, out var typed) && typed != _was[field] ? Value(field, typed) : stands(field))
            is JsonValue value
        && value.GetValueKind() == JsonValueKind.Number
            ? (double)(decimal)value
            : null;

    /// <summary>What is wrong with the field; null for nothing.</summary>
    public string? Wrong(string field) => _faults.GetValueOrDefault(field);

    /// <summary>What somebody else wrote into a field that was typed into; null for nothing.</summary>
    public string? Now(string field) =>
        Moved && _typed.TryGetValue(field, out var typed) && typed != _was[field] && Stands(field) != _was[field]
            ? Stands(field)
            : null;

    /// <summary>Whether something stands in one of the fields, or is wrong with it.</summary>
    public bool Told(IEnumerable<string> fields) => fields.Any(f => Shown(f).Length > 0 || Wrong(f) is not null);

    /// <summary>Says that somebody else was quicker: what was typed into rows follows them, and never lands on others.</summary>
    public void HasMoved()
    {
        Moved = true;
        LeftOut = MovedRows.Follow(_typed, _was, Stands);
    }

    /// <summary>Leaves all out that was typed, for it was of something else.</summary>
    public void LeaveAllOut()
    {
        LeftOut = [.. _typed.Where(t => t.Value != _was[t.Key]).Select(t => new LeftOut("", t.Key, t.Value))];
        _typed.Clear();
        _was.Clear();
    }

    /// <summary>Tells faults beside their fields.</summary>
    public void Tell(IEnumerable<Fault> faults, Func<string?, string> fieldOf)
    {
        foreach (var fault in faults)
        {
            var field = fieldOf(fault.At);
            if (_typed.ContainsKey(field))
            {
                _faults.TryAdd(field, Sentence(field, fault));
            }
            else
            {
                Elsewhere = Elsewhere.Add(OfNoField(field, fault));
            }
        }
    }

    /// <summary>"20 to 260 °C": what a field may hold; empty for text.</summary>
    public static string Bounds(string field, string unit)
    {
        var limits = FormFields.Limits(field);
        if (limits is not { Kind: FieldKind.Whole or FieldKind.Number, Least: { } least, Most: { } most })
        {
            return unit;
        }

        var (low, high) = (Bound(field, least, LengthField.Least), Bound(field, most, LengthField.Most));
        var words =
            limits.AboveLeast ? BookWords.AboveTo
            : limits.BelowMost ? BookWords.FromToBelow
            : BookWords.FromTo;
        return Say.With(words, low, high, unit).TrimEnd();
    }

    /// <summary>Whether the field holds a length.</summary>
    public static bool IsLength(string field) => field.EndsWith("Mm", StringComparison.Ordinal);

    private static string OfNoField(string field, Fault fault) =>
        field.Split('/') switch
        {
            ["", "spares"] => BookWords.SparesOnce,
            ["", "goes-on", ..] => BookWords.TickOne,
            ["", "process", "steps"] when fault.Kind == FaultKind.Other => BookWords.NeverPressed,
            ["", "recipes", _, "changes", _, "do"] => BookWords.StepInRecipe,
            _ => Say.Fault(fault),
        };

    private string Sentence(string field, Fault fault)
    {
        var limits = FormFields.Limits(field)!;
        var value = Value(field, _typed[field]);
        if (value is null)
        {
            return BookWords.FillIn;
        }

        if (fault.Kind == FaultKind.Twice)
        {
            return BookWords.Twice;
        }

        if (limits.Kind is FieldKind.Whole or FieldKind.Number && limits.Choices.IsEmpty && !Holds(limits, value))
        {
            var unit = IsLength(field) ? Say.LengthUnit : "";
            return Say.With(
                limits.Kind == FieldKind.Whole && !(IsLength(field) && Reader.Inches)
                    ? BookWords.WriteWhole
                    : BookWords.WriteNumber,
                Bounds(field, unit)
            );
        }

        if (limits.Kind == FieldKind.Text && value.ToString().Length > limits.MostLetters)
        {
            return Say.With(BookWords.TooLong, limits.MostLetters);
        }

        return field.Split('/')[^1] switch
        {
            "marginMm" => BookWords.MarginTooWide,
            "currency" => BookWords.NoCurrency,
            "id" => BookWords.ShortName,
            "survived" => BookWords.MoreThanWashed,
            "of" => BookWords.MoreSpoilt,
            "on" => IsDay(value.ToString()) ? BookWords.DayAhead : BookWords.NoDay,
            "dayStart" => BookWords.TimeOfDay,
            "points" when fault.Kind == FaultKind.Writing => BookWords.PointsHow,
            "appUrl" => BookWords.NoAddress,
            "celsius" => BookWords.WithoutHeat,
            _ => Capital($"{Say.Sentence(fault.What)} {Say.Sentence(fault.Mend)}"),
        };
    }

    // Beside its field it stands by itself.
    private static string Capital(string says) => says.Length > 0 ? char.ToUpper(says[0], Culture) + says[1..] : says;

    private static bool IsDay(string text) =>
        DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out _);

    private static bool Holds(FieldLimits limits, JsonNode value) =>
        value.GetValueKind() == JsonValueKind.Number
        && (double)(decimal)value is var number
        && (limits.Kind != FieldKind.Whole || number == Math.Floor(number))
        && (
            limits.AboveLeast ? number > (limits.Least ?? double.MinValue) : number >= (limits.Least ?? double.MinValue)
        )
        && (limits.BelowMost ? number < (limits.Most ?? double.MaxValue) : number <= (limits.Most ?? double.MaxValue));

    // Rounded inward: what is told as allowed is allowed.
    private static string Bound(string field, double bound, Func<decimal, decimal> inward) =>
        IsLength(field) ? inward((decimal)bound).ToString("0.###", Culture) : bound.ToString("0.###", Culture);

    // What people read in words, as the built-in example has it: a field that nobody touches keeps what the file says.
    private static readonly FrozenSet<string> Worded =
    [
        "name",
        "source",
        "glueSource",
        "careTipsSource",
        "say",
        "cover",
        "from",
        "across",
        "careTips",
        "keepOffThePlate",
    ];

    private static bool IsWorded(string field)
    {
        var steps = field.Split('/');
        return Worded.Contains(char.IsAsciiDigit(steps[^1][0]) ? steps[^2] : steps[^1]);
    }

    private static string Text(string field, JsonNode? value) =>
        value switch
        {
            null => "",
            JsonValue when value.GetValueKind() is JsonValueKind.True or JsonValueKind.False => value.ToJsonString(),
            JsonValue when value.GetValueKind() == JsonValueKind.Number => Figure(
                field,
                decimal.Parse(value.ToJsonString(), NumberStyles.Float, CultureInfo.InvariantCulture)
            ),
            _ when IsWorded(field) => Say.Words.AsWritten(value.ToString()),
            _ => value.ToString(),
        };

    private static string Figure(string field, decimal figure) =>
        (IsLength(field) && Reader.Inches ? LengthField.Inches(figure) : figure).ToString("0.##########", Culture);

    // What is no number stays as it was typed: the schema says what is wanted there.
    private static JsonValue? Value(string field, string typed)
    {
        var limits = FormFields.Limits(field)!;
        if (typed.Length == 0)
        {
            return null;
        }

        if (limits.Kind == FieldKind.Flag && typed is "true" or "false")
        {
            return JsonValue.Create(typed == "true");
        }

        if (limits.Kind is FieldKind.Text or FieldKind.Flag || Number(typed) is not { } number)
        {
            return JsonValue.Create(typed);
        }

        if (IsLength(field) && Reader.Inches)
        {
            number *= LengthField.MmPerInch;
            number = Math.Round(number, limits.Kind == FieldKind.Whole ? 0 : 3, MidpointRounding.AwayFromZero);
        }

        return JsonValue.Create(number / 1.0000000000000000000000000000m);
    }

    // "12,50" and "12.50" are the same; where a sign could divide thousands ("1,000" in English), nobody guesses.
    private static decimal? Number(string typed)
    {
        var usual = CultureInfo.CurrentUICulture.NumberFormat.NumberDecimalSeparator == "," ? ',' : '.';
        var other = usual == ',' ? '.' : ',';
        var at = typed.IndexOf(other, StringComparison.Ordinal);
        if (at >= 0 && (typed.Contains(usual) || typed.Length - at - 1 == 3))
        {
            return null;
        }

        return
            decimal.TryParse(
                typed.Replace(',', '.'),
                NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint,
                CultureInfo.InvariantCulture,
                out var number
            )
            && Math.Abs(number) < 1e12m
            ? number
            : null;
    }
}
