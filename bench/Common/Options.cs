using System.Globalization;

namespace Coldpeel.Bench;

/// <summary>The few options of a bench: <c>--name value</c>, <c>--flag</c>, and plain words.</summary>
internal sealed class Options
{
    private static readonly string[] Flags = ["--quick", "--processor", "--help"];
    private readonly Dictionary<string, string> _named = [];

    public Options(IReadOnlyList<string> args)
    {
        for (var i = 0; i < args.Count; i++)
        {
            if (!args[i].StartsWith("--", StringComparison.Ordinal))
            {
                Words.Add(args[i]);
            }
            else
            {
                var name = args[i];
                _named[name] = Flags.Contains(name) || i + 1 == args.Count ? "" : args[++i];
            }
        }
    }

    public List<string> Words { get; } = [];

    /// <summary>Whether the words of use are asked for.</summary>
    public bool Help => _named.ContainsKey("--help");

    /// <summary>The options given that are none of these.</summary>
    public IEnumerable<string> Unknown(params string[] known) => _named.Keys.Except(Flags).Except(known);

    public bool Quick => _named.ContainsKey("--quick");

    /// <summary>Whether seconds are counted by the processor's time.</summary>
    public bool ByProcessor => _named.ContainsKey("--processor");

    public string? Text(string name) => _named.GetValueOrDefault(name);

    public double Number(string name, double usual) =>
        _named.TryGetValue(name, out var text) ? double.Parse(text, CultureInfo.InvariantCulture) : usual;

    public int Whole(string name, int usual) =>
        _named.TryGetValue(name, out var text) ? int.Parse(text, CultureInfo.InvariantCulture) : usual;
}
