using System.Collections.Immutable;
using System.Text;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace Coldpeel.Hosts.Tests.Rules;

/// <summary>A sentence of the program as the compiler sees it.</summary>
/// <param name="Form">The English form with {0}, {1} where parts stand.</param>
/// <param name="Where">File and line.</param>
internal sealed record FoundSentence(string Form, string Where);

/// <summary>Reads the sources as the compiler does, and lists every sentence and every text that becomes one.</summary>
internal static class SentenceScan
{
    private static readonly string[] Projects = ["Craft", "Workshop", "Files", "Storage", "Desk", "Web"];

    private const string Usings =
        "global using System; global using System.Collections.Generic; global using System.IO; global using System.Linq; "
        + "global using System.Net.Http; global using System.Threading; global using System.Threading.Tasks;";

    /// <summary>Sentences with their forms; and places where a text that is put together becomes a sentence, which loses its form.</summary>
    /// <param name="root">Root of the repository.</param>
    /// <param name="references">Assemblies of packages and framework.</param>
    public static (ImmutableArray<FoundSentence> Sentences, ImmutableArray<string> Lost) Of(
        string root,
        IEnumerable<string> references
    )
    {
        // What may be null changes no conversion, and asking for it walks every body twice.
        var options = CSharpParseOptions
            .Default.WithLanguageVersion(LanguageVersion.Preview)
            .WithFeatures([new("run-nullable-analysis", "never")]);
        var trees = Projects
            .SelectMany(p =>
                Directory.EnumerateFiles(Path.Combine(root, "src", p), "*.cs", SearchOption.AllDirectories)
            )
            .Where(f =>
                !f.Contains("/obj/", StringComparison.Ordinal) && !f.Contains("/Migrations/", StringComparison.Ordinal)
            )
            .Select(f => CSharpSyntaxTree.ParseText(File.ReadAllText(f), options, Path.GetRelativePath(root, f)))
            .Append(CSharpSyntaxTree.ParseText(Usings, options, "usings"))
            .ToArray();
        var compilation = CSharpCompilation.Create(
            "sentences",
            trees,
            references.Select(r => MetadataReference.CreateFromFile(r)),
            new(OutputKind.DynamicallyLinkedLibrary, nullableContextOptions: NullableContextOptions.Enable)
        );
        var type =
            compilation.GetTypeByMetadataName("Coldpeel.Workshop.Findings.Sentence")
            ?? throw new InvalidOperationException("The type of sentences is not found.");
        var found = ImmutableArray.CreateBuilder<FoundSentence>();
        var lost = ImmutableArray.CreateBuilder<string>();
        var constants = trees.SelectMany(Constants).ToHashSet(StringComparer.Ordinal);
        foreach (var tree in trees)
        {
            var model = compilation.GetSemanticModel(tree);
            foreach (var node in WithText(tree, constants))
            {
                var conversion = model.GetConversion(node);
                var at = $"{tree.FilePath}:{node.GetLocation().GetLineSpan().StartLinePosition.Line + 1}";
                if (conversion.IsInterpolatedStringHandler || IsCast(node, model, type))
                {
                    if (
                        conversion.IsInterpolatedStringHandler
                        && !SymbolEqualityComparer.Default.Equals(model.GetTypeInfo(node).ConvertedType, type)
                    )
                    {
                        continue;
                    }

                    if (Form(node, model) is { } form)
                    {
                        found.Add(new(form, at));
                    }
                }
                else if (
                    conversion.IsUserDefined
                    && SymbolEqualityComparer.Default.Equals(conversion.MethodSymbol?.ContainingType, type)
                )
                {
                    Text(node, model, at, found, lost);
                }
            }
        }

        return ([.. found.DistinctBy(f => f.Form)], lost.ToImmutable());
    }

    // Names of constants: what they stand for is a text too.
    private static IEnumerable<string> Constants(SyntaxTree tree) =>
        tree.GetRoot()
            .DescendantNodes()
            .Where(n =>
                n is FieldDeclarationSyntax field && field.Modifiers.Any(SyntaxKind.ConstKeyword)
                || n is LocalDeclarationStatementSyntax { IsConst: true }
            )
            .SelectMany(n => n.DescendantNodes().OfType<VariableDeclaratorSyntax>())
            .Select(v => v.Identifier.ValueText);

    // Only an expression that has a text in it can be a sentence with words; bodies without one are never bound.
    private static IEnumerable<ExpressionSyntax> WithText(SyntaxTree tree, HashSet<string> constants)
    {
        var root = tree.GetRoot();
        var with = new HashSet<SyntaxNode>();
        foreach (var text in root.DescendantNodes().Where(n => IsText(n, constants)))
        {
            for (var node = text; node is not null && with.Add(node); node = node.Parent) { }
        }

        return root.DescendantNodes(with.Contains).OfType<ExpressionSyntax>().Where(with.Contains);
    }

    private static bool IsText(SyntaxNode node, HashSet<string> constants) =>
        node switch
        {
            InterpolatedStringExpressionSyntax => true,
            LiteralExpressionSyntax literal => literal.Token.Value is string,
            IdentifierNameSyntax name => name.Identifier.ValueText == "nameof"
                || constants.Contains(name.Identifier.ValueText),
            _ => false,
        };

    private static bool IsCast(ExpressionSyntax node, SemanticModel model, INamedTypeSymbol type) =>
        node.Parent is CastExpressionSyntax cast
        && cast.Expression == node
        && node is InterpolatedStringExpressionSyntax or BinaryExpressionSyntax
        && SymbolEqualityComparer.Default.Equals(model.GetTypeInfo(cast).Type, type);

    // A constant is known by its whole text; a name that stands by itself is data; what is put together has lost its form.
    private static void Text(
        ExpressionSyntax node,
        SemanticModel model,
        string at,
        ImmutableArray<FoundSentence>.Builder found,
        ImmutableArray<string>.Builder lost
    )
    {
        if (model.GetConstantValue(node) is { HasValue: true, Value: string text })
        {
            found.Add(new(Escaped(text), at));
        }
        else if (node.DescendantNodesAndSelf().Any(n => n is InterpolatedStringExpressionSyntax))
        {
            lost.Add($"{at} {node}");
        }
        else
        {
            foreach (var literal in node.DescendantNodesAndSelf().OfType<LiteralExpressionSyntax>())
            {
                if (node is ConditionalExpressionSyntax or SwitchExpressionSyntax && literal.Token.Value is string one)
                {
                    found.Add(new(Escaped(one), at));
                }
            }
        }
    }

    private static string? Form(ExpressionSyntax node, SemanticModel model)
    {
        var form = new StringBuilder();
        var part = 0;
        return Append(node) ? form.ToString() : null;

        bool Append(ExpressionSyntax one)
        {
            switch (one)
            {
                case BinaryExpressionSyntax sum:
                    return Append(sum.Left) && Append(sum.Right);
                case ParenthesizedExpressionSyntax inner:
                    return Append(inner.Expression);
                case InterpolatedStringExpressionSyntax text:
                    foreach (var content in text.Contents)
                    {
                        form.Append(
                            content is InterpolatedStringTextSyntax plain ? plain.TextToken.ValueText : $"{{{part++}}}"
                        );
                    }

                    return true;
                default:
                    return false;
            }
        }
    }

    private static string Escaped(string text) =>
        text.Replace("{", "{{", StringComparison.Ordinal).Replace("}", "}}", StringComparison.Ordinal);
}
